import { createHash } from 'node:crypto';
import { createWriteStream, statSync } from 'node:fs';
import { Transform, Writable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import yauzl from 'yauzl';
import { LotfileError } from '../../vocabulary/errors.ts';
import { aboutTo, syncFile } from '../disk.ts';
import type { LongWork } from '../long-work.ts';
import { fileTrouble } from '../trouble.ts';
import {
  type BundledFile,
  badBundle,
  calendarName,
  databaseName,
  isOurPath,
  largestDatabase,
  largestManifest,
  type Manifest,
  manifestName,
  readManifest,
} from './manifest.ts';

/** A bundle whose list is checked; its files are compared as they are read. */
export interface OpenBundle {
  readonly manifest: Manifest;
  readonly bytes: number;
  /** Reads every file through and compares it with the manifest. */
  compareAll(work: LongWork): Promise<void>;
  /** Writes one file to `to` (which must not exist); bytes that differ leave nothing there but a sentence. */
  extract(file: BundledFile, to: string, signal?: AbortSignal): Promise<void>;
  text(file: BundledFile): Promise<string>;
  close(): void;
}

type Entries = ReadonlyMap<string, yauzl.Entry>;

async function entriesOf(zip: yauzl.ZipFile, about: string): Promise<Entries> {
  const entries = new Map<string, yauzl.Entry>();
  const folded = new Set<string>();
  for await (const entry of zip.eachEntry()) {
    const name = entry.fileName;
    if (name !== manifestName && !isOurPath(name))
      throw badBundle(`it holds "${shown(name)}", which no bundle does.`, about);
    const low = name.toLowerCase();
    if (folded.has(low)) throw badBundle(`it holds "${shown(name)}" twice.`, about);
    folded.add(low);
    entries.set(name, entry);
  }
  return entries;
}

/** A stranger's name, fit to be shown. */
function shown(name: string): string {
  return name.replace(/\p{Cc}/gu, ' ').slice(0, 80);
}

/** Lists alone may be packed, within limits; everything else lies there at its size: nothing can swell. */
function checkSizes(entries: Entries, fileBytes: number, about: string): void {
  let packed = 0;
  for (const [name, entry] of entries) {
    packed += entry.compressedSize;
    const list = name === manifestName || name === calendarName;
    const limit = list ? largestManifest : name === databaseName ? largestDatabase : entry.compressedSize;
    if (entry.uncompressedSize > limit || entry.isEncrypted()) {
      throw badBundle(`"${shown(name)}" in it claims a size that can’t be.`, about);
    }
  }
  if (packed > fileBytes) throw badBundle('its parts lie over each other.', about);
}

interface Pouring {
  readonly signal?: AbortSignal | undefined;
  /** The file it is poured into. */
  readonly path?: string | undefined;
}

/** Passes so many bytes and no more, and ends in the hash that was promised. */
function comparing(file: BundledFile, about: string, { signal, path }: Pouring): Transform {
  const hash = createHash('sha256');
  let bytes = 0;
  const wrong = (): LotfileError => badBundle(`"${file.path}" in it is not what its list says.`, about);
  return new Transform({
    transform(piece: Buffer, _encoding, done) {
      bytes += piece.length;
      if (signal?.aborted === true) return done(new LotfileError('stopped', 'Stopped as you asked.'));
      if (bytes > file.bytes) return done(wrong());
      hash.update(piece);
      try {
        if (path !== undefined) aboutTo('write', path);
        done(null, piece);
      } catch (error) {
        done(error instanceof Error ? error : new Error(String(error)));
      }
    },
    flush: (done) => done(bytes === file.bytes && hash.digest('hex') === file.sha256 ? null : wrong()),
  });
}

interface Opened {
  readonly zip: yauzl.ZipFile;
  readonly entries: Entries;
  readonly about: string;
}

async function pour({ zip, entries, about }: Opened, file: BundledFile, to: Writable, how: Pouring = {}) {
  const entry = entries.get(file.path);
  if (entry === undefined) throw badBundle(`"${file.path}" is missing from it.`, about);
  await pipeline(await zip.openReadStreamPromise(entry), comparing(file, about, how), to);
}

async function textOf(opened: Opened, name: string, most: number): Promise<string> {
  const entry = opened.entries.get(name);
  if (entry === undefined) throw badBundle(`"${name}" is missing from it.`, opened.about);
  const pieces: Buffer[] = [];
  let bytes = 0;
  for await (const piece of await opened.zip.openReadStreamPromise(entry)) {
    bytes += piece.length;
    if (bytes > most) throw badBundle(`"${name}" in it is too long.`, opened.about);
    pieces.push(piece);
  }
  return Buffer.concat(pieces).toString('utf8');
}

function checkList({ entries, about }: Opened, manifest: Manifest): void {
  const listed = new Map(manifest.files.map((file) => [file.path, file]));
  if (listed.size !== manifest.files.length || entries.size !== listed.size + 1) {
    throw badBundle('its files and its list of them differ.', about);
  }
  for (const [path, file] of listed) {
    const entry = entries.get(path);
    if (entry === undefined) throw badBundle(`"${shown(path)}" is missing from it.`, about);
    if (entry.uncompressedSize !== file.bytes) throw badBundle(`"${path}" in it has another size than listed.`, about);
    const sha = /\/([0-9a-f]{64})\.[a-z0-9]+$/.exec(path)?.[1];
    if (sha !== undefined && path.startsWith('renditions/') && sha !== file.sha256) {
      throw badBundle(`"${path}" in it is not what its name says.`, about);
    }
  }
  if (!listed.has(databaseName)) throw badBundle('it holds no lot.', about);
}

/** Anything the zip reader says becomes our sentence; errors of the disk stay what they are. */
function unreadable(error: unknown, about: string): LotfileError {
  if (error instanceof LotfileError) return error;
  const disk = error instanceof Error && 'syscall' in error;
  return disk ? fileTrouble(error, about, 'Reading the bundle') : badBundle('it can’t be read to its end.', about);
}

function bundleOf(opened: Opened, manifest: Manifest, bytes: number): OpenBundle {
  const { zip, about } = opened;
  const told = async (work: Promise<void>): Promise<void> => {
    try {
      await work;
    } catch (error) {
      throw unreadable(error, about);
    }
  };
  return {
    manifest,
    bytes,
    close: () => zip.close(),
    text: async (file) => {
      const pieces: Buffer[] = [];
      const gather = new Writable({
        write(piece: Buffer, _encoding, done) {
          pieces.push(piece);
          done();
        },
      });
      await told(pour(opened, file, gather));
      return Buffer.concat(pieces).toString('utf8');
    },
    extract: async (file, to, signal) => {
      await told(pour(opened, file, createWriteStream(to, { flags: 'wx' }), { signal, path: to }));
      syncFile(to);
    },
    compareAll: async (work) => {
      for (const [n, file] of manifest.files.entries()) {
        work.onProgress?.({ what: 'reading the bundle back', done: n, of: manifest.files.length });
        const nowhere = new Writable({ write: (_piece, _encoding, done) => done() });
        await told(pour(opened, file, nowhere, { signal: work.signal }));
      }
    },
  };
}

/**
 * Opens a bundle and checks that it is one: only names of ours, each once, at sizes that can be, exactly those listed.
 * @throws LotfileError `file refused` with what is wrong, `lot newer` where a newer program made it.
 */
export async function openBundle(path: string, about: string): Promise<OpenBundle> {
  let zip: yauzl.ZipFile | undefined;
  try {
    const { size } = statSync(path);
    zip = await yauzl.openPromise(path, { autoClose: false, strictFileNames: true, validateEntrySizes: true });
    const entries = await entriesOf(zip, about);
    checkSizes(entries, size, about);
    const opened = { zip, entries, about };
    const manifest = readManifest(await textOf(opened, manifestName, largestManifest), about);
    checkList(opened, manifest);
    return bundleOf(opened, manifest, size);
  } catch (error) {
    zip?.close();
    throw unreadable(error, about);
  }
}
