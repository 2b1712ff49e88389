import { closeSync, createWriteStream, openSync, readSync, rmSync, statSync } from 'node:fs';
import { Transform } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { type Entry, getFileNameLowLevel, open, type ZipFile } from 'yauzl';
import { refused } from '../refusals.ts';
import { sniffLength } from '../sniff.ts';
import type { Holding, Inside } from './holding.ts';
import { shownFolder, shownName } from './told-name.ts';

/** Beyond this a file that was packed so tightly is no paper but a bomb. */
const bomb = { bytes: 64 * 1024 * 1024, ratio: 200 };
/** APPNOTE 4.4.5: stored and deflated; yauzl reads no others. */
const readMethods = new Set([0, 8]);
/** Notes that systems leave in folders. */
const systemNotes = /(^|\/)(__MACOSX\/|\.DS_Store$|Thumbs\.db$|desktop\.ini$)/i;

function openZip(path: string): Promise<ZipFile> {
  return new Promise((resolve, reject) => {
    open(
      path,
      { lazyEntries: true, decodeStrings: false, validateEntrySizes: true, autoClose: false },
      (problem, zip) => (problem === null ? resolve(zip) : reject(problem)),
    );
  });
}

/** The entries one after the other; how each is read decides when the next one comes. */
async function* entriesOf(zip: ZipFile): AsyncGenerator<Entry> {
  for (;;) {
    const next = Promise.withResolvers<Entry | undefined>();
    const onEntry = (entry: Entry) => next.resolve(entry);
    const onEnd = () => next.resolve(undefined);
    zip.once('entry', onEntry).once('end', onEnd).once('error', next.reject);
    zip.readEntry();
    const entry = await next.promise;
    zip.off('entry', onEntry).off('end', onEnd).off('error', next.reject);
    if (entry === undefined) return;
    yield entry;
  }
}

function streamOf(zip: ZipFile, entry: Entry): Promise<NodeJS.ReadableStream> {
  return new Promise((resolve, reject) => {
    zip.openReadStream(entry, (problem, stream) => (problem === null ? resolve(stream) : reject(problem)));
  });
}

function limited(most: number): Transform {
  let seen = 0;
  return new Transform({
    transform(part: Buffer, _encoding, done) {
      seen += part.length;
      done(seen > most ? new Error('It unpacks to more than it says.') : null, part);
    },
  });
}

function whyNot(entry: Entry, room: number): string | undefined {
  const { compressedSize, uncompressedSize } = entry;
  if (entry.isEncrypted()) return 'is locked with a password: unpack the ZIP yourself and drop in what you need.';
  if (!readMethods.has(entry.compressionMethod))
    return 'is packed in a way that is not read here: unpack the ZIP yourself and drop in what you need.';
  if (uncompressedSize > bomb.bytes && uncompressedSize / Math.max(1, compressedSize) > bomb.ratio)
    return 'unpacks to far more than any paper has.';
  if (uncompressedSize > room) return 'does not fit: together the files inside take more than 1 GB.';
  return undefined;
}

function headOf(path: string): Uint8Array {
  const head = Buffer.alloc(sniffLength);
  const fd = openSync(path, 'r');
  try {
    return head.subarray(0, readSync(fd, head));
  } finally {
    closeSync(fd);
  }
}

interface Into {
  readonly holding: Holding;
  readonly within: string | undefined;
}

async function takeEntry(zip: ZipFile, entry: Entry, { holding, within }: Into): Promise<void> {
  const told = getFileNameLowLevel(entry.generalPurposeBitFlag, entry.fileNameRaw, entry.extraFields, false);
  if (/[/\\]$/.test(told) || systemNotes.test(told)) return;
  const folder = shownFolder(told);
  const where = [within, folder === '' ? undefined : folder].filter((part) => part !== undefined).join(' / ');
  const inside: Inside = { name: shownName(told, 'a file without a name'), ...(where === '' ? {} : { within: where }) };
  const why = whyNot(entry, holding.room);
  if (why !== undefined) {
    holding.leave(inside.name, why);
    return;
  }
  const path = holding.nextPath(inside);
  if (path === undefined) return;
  try {
    await pipeline(await streamOf(zip, entry), limited(holding.room), createWriteStream(path));
    holding.took(inside, { path, bytes: statSync(path).size, head: headOf(path) });
  } catch {
    rmSync(path, { force: true });
    holding.leave(inside.name, 'is damaged inside the ZIP: fetch or copy the ZIP again.');
  }
}

/**
 * Takes the files out of a ZIP (APPNOTE 6.3). Names are told on, never used as paths.
 * @throws LotfileError `file refused`
 */
export async function readZip(path: string, name: string, into: Into): Promise<void> {
  const broken = refused(name, 'is a ZIP that breaks off or is damaged.', 'Fetch or copy it again.');
  const zip = await openZip(path).catch(() => {
    throw broken;
  });
  try {
    for await (const entry of entriesOf(zip)) {
      await takeEntry(zip, entry, into);
      if (into.holding.left.length >= 1000) break;
    }
  } catch {
    throw broken;
  } finally {
    zip.close();
  }
}
