import { closeSync, createWriteStream, openSync, readSync, rmSync, statSync } from 'node:fs';
import { Transform } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { type Entry, getFileNameLowLevel, open, type ZipFile } from 'yauzl';
import { LotfileError } from '../../vocabulary/errors.ts';
import { sniffLength } from '../sniff.ts';
import type { Holding, Inside } from './holding.ts';
import { shownFolder, shownName } from './told-name.ts';
import { whyBroken, whyNot, zipTrouble } from './zip-troubles.ts';

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
  } catch (problem) {
    rmSync(path, { force: true });
    if (isOfDisk(problem)) throw diskTrouble(problem);
    holding.leave(inside.name, whyBroken(problem));
  }
}

/** What the system says of a file names the call that failed; what zlib and yauzl say of bytes does not. */
function isOfDisk(problem: unknown): problem is Error & { readonly code?: unknown } {
  return problem instanceof Error && 'syscall' in problem;
}

function diskTrouble(cause: Error & { readonly code?: unknown }): LotfileError {
  if (cause.code === 'ENOSPC' || cause.code === 'EDQUOT') {
    const next = 'Make room and unpack it again.';
    return new LotfileError('disk', 'There is no room on the disk for the files inside the ZIP.', { next, cause });
  }
  return new LotfileError(
    'disk',
    'The files inside the ZIP could not be taken out: the disk would not read or write.',
    {
      next: 'See that the disk is there and may be written to, then unpack it again.',
      cause,
    },
  );
}

/**
 * Takes the files out of a ZIP (APPNOTE 6.3). Names are told on, never used as paths.
 * @throws LotfileError `file refused`, `disk`
 */
export async function readZip(path: string, name: string, into: Into): Promise<void> {
  const zip = await openZip(path).catch((problem: unknown) => {
    throw isOfDisk(problem) ? diskTrouble(problem) : zipTrouble(name, problem);
  });
  try {
    for await (const entry of entriesOf(zip)) {
      await takeEntry(zip, entry, into);
      if (into.holding.left.length >= 1000) break;
    }
  } catch (problem) {
    throw zipTrouble(name, problem);
  } finally {
    zip.close();
  }
}
