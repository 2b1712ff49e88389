import { createHash, type Hash } from 'node:crypto';
import { createReadStream, createWriteStream, statSync } from 'node:fs';
import { Transform } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import Database from 'better-sqlite3';
import yazl from 'yazl';
import { LotfileError } from '../../vocabulary/errors.ts';
import { aboutTo, removeFile, syncFile } from '../disk.ts';
import type { Ledger } from '../ledger.ts';
import type { LongWork } from '../long-work.ts';
import { lotKey } from '../lot-key.ts';
import { newTemporaryPath } from '../places.ts';
import { fileTrouble } from '../trouble.ts';
import { filesToBundle, type ToBundle } from './kept-files.ts';
import { type BundledFile, databaseName, type Manifest, manifestName, manifestText } from './manifest.ts';
import { openBundle } from './read-bundle.ts';

export interface BundleWritten {
  readonly sha256: string;
  readonly bytes: number;
  /** Beside the database. */
  readonly files: number;
  /** What could not go along, or changed on the disk since it was kept. */
  readonly notes: readonly string[];
}

/** The same time for every entry: a bundle tells its day in the manifest, and the same lot gives the same file. */
function entryLook() {
  // In local time, as a ZIP has it: made anew for each entry, for a computer may travel while the program runs.
  return { mtime: new Date(1980, 0, 1), mode: 0o100644, forceDosTimestamp: true } as const;
}

/** A whole copy of the database, packed anew; nobody holds the copy. */
function copyDatabase(ledger: Ledger): string {
  const copy = newTemporaryPath(ledger);
  aboutTo('write', copy);
  ledger.translated(() => ledger.db.prepare('VACUUM INTO ?').run(copy));
  const db = new Database(copy);
  try {
    db.pragma('journal_mode = DELETE');
    db.exec('DELETE FROM lease');
    db.exec('VACUUM');
  } finally {
    db.close();
  }
  return copy;
}

function purges({ db }: Ledger): number {
  return db.prepare<[], number>('SELECT count(*) FROM purge').pluck().get() ?? 0;
}

/** Hashes what passes, and ends the work when it is stopped. */
function watching(hash: Hash, signal: AbortSignal | undefined, before: () => void = () => undefined): Transform {
  return new Transform({
    transform(piece: Buffer, _encoding, done) {
      try {
        if (signal?.aborted === true) throw new LotfileError('stopped', 'Stopped as you asked.');
        before();
        hash.update(piece);
        done(null, piece);
      } catch (error) {
        done(error instanceof Error ? error : new Error(String(error)));
      }
    },
  });
}

interface Packing {
  readonly zip: yazl.ZipFile;
  readonly done: BundledFile[];
  readonly work: LongWork;
  readonly of: number;
}

/** Hands one file to the zip when its turn comes; its hash is known when it has passed. */
function pack(file: ToBundle, { zip, done, work, of }: Packing): void {
  const compress = file.path === databaseName;
  zip.addReadStreamLazy(file.path, { ...entryLook(), compress, size: file.bytes }, (give) => {
    work.onProgress?.({ what: 'writing the bundle', done: done.length, of });
    const hash = createHash('sha256');
    const through = watching(hash, work.signal);
    through.on('end', () => done.push({ path: file.path, bytes: file.bytes, sha256: hash.digest('hex') }));
    const source = createReadStream(file.disk, { highWaterMark: 1 << 20 });
    source.on('error', (error) => through.destroy(fileTrouble(error, file.name, `Reading "${file.name}"`)));
    through.on('error', (error) => zip.emit('error', error));
    give(null, source.pipe(through));
  });
}

/** The manifest comes last, when every hash is known: its entry is asked for only then. */
function packManifest(zip: yazl.ZipFile, text: () => string): void {
  zip.addReadStreamLazy(manifestName, { ...entryLook(), compress: true }, (give) => {
    const bytes = Buffer.from(text());
    const through = new Transform({ transform: (piece, _encoding, done) => done(null, piece) });
    through.end(bytes);
    give(null, through);
  });
}

async function writeZip(path: string, files: readonly ToBundle[], about: Omit<Manifest, 'files'>, work: LongWork) {
  const zip = new yazl.ZipFile();
  const done: BundledFile[] = [];
  for (const file of files) pack(file, { zip, done, work, of: files.length });
  packManifest(zip, () => manifestText({ ...about, files: done }));
  zip.end();
  const hash = createHash('sha256');
  const out = watching(hash, work.signal, () => aboutTo('write', path));
  const failed = new Promise<never>((_, reject) => {
    zip.on('error', (error: unknown) => {
      out.destroy();
      reject(error instanceof Error ? error : new Error(String(error)));
    });
  });
  await Promise.race([pipeline(zip.outputStream, out, createWriteStream(path, { flags: 'wx' })), failed]);
  syncFile(path);
  return { sha256: hash.digest('hex'), done };
}

function changedNotes(files: readonly ToBundle[], done: readonly BundledFile[]): readonly string[] {
  const found = new Map(done.map(({ path, sha256 }) => [path, sha256]));
  return files
    .filter(({ path, sha256 }) => sha256 !== undefined && found.get(path) !== sha256)
    .map(({ name }) => `"${name}" changed on the disk since it was kept; it goes along as it is now. Run verify.`);
}

/**
 * Writes the whole lot into one file at `path` (which must not exist) and reads it back: every file is compared with
 * the hash it had on its way in. Entries over 4 GB and more than 65,535 of them are no trouble (ZIP64).
 * @throws LotfileError `disk`, `stopped`; then nothing stands at `path`.
 */
export async function writeBundle(
  ledger: Ledger,
  path: string,
  given: { readonly day: string; readonly work: LongWork },
): Promise<BundleWritten> {
  const { db } = ledger;
  const { files, missing } = filesToBundle(ledger);
  const purged = purges(ledger);
  const copy = copyDatabase(ledger);
  try {
    const bytes = statSync(copy).size;
    const database: ToBundle = { path: databaseName, disk: copy, bytes, sha256: undefined, name: databaseName };
    const about = {
      lot: lotKey(db),
      title: db.prepare<[], string>('SELECT title FROM lot').pluck().get() ?? '',
      day: given.day,
      migrations: db.prepare<[], string>('SELECT name FROM migration ORDER BY seq').pluck().all(),
    };
    const { sha256, done } = await writeZip(path, [database, ...files], about, given.work);
    const bundle = await openBundle(path, 'the new bundle');
    try {
      await bundle.compareAll(given.work);
    } finally {
      bundle.close();
    }
    if (purges(ledger) !== purged) {
      throw new LotfileError('conflict', 'A file was removed for good while the bundle was written.', {
        about: 'the bundle',
        next: 'Make the bundle again: it is without that file then.',
      });
    }
    const notes = [...missing, ...changedNotes(files, done)];
    return { sha256, bytes: statSync(path).size, files: files.length, notes };
  } catch (error) {
    removeFile(path);
    throw fileTrouble(error, 'the bundle', 'Writing the bundle');
  } finally {
    removeFile(copy);
    ledger.issued.delete(copy);
  }
}
