import { createHash, type Hash } from 'node:crypto';
import { closeSync, fdatasync, fsync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { promisify } from 'node:util';
import { LotfileError } from '../../vocabulary/errors.ts';
import { type GrowingHash, HashAside } from './hash-aside.ts';
import type { CheckedBytes } from './pace.ts';
import { readFully } from './syntax/byte-window.ts';
import { type MapRef, ownValue, serialise } from './syntax/serialise.ts';
import { byteString } from './syntax/text-string.ts';
import { dict, FinishedRef, type PdfDict, type PdfStreamPlace, type PdfValue } from './syntax/values.ts';

const bufferSize = 1024 * 1024;
/** The second line's high bytes tell transfer programs that the file is binary (ISO 32000-1, 7.5.2). */
const header = '%PDF-1.7\n%\xe2\xe3\xcf\xd3\n';
const syncToDisk = promisify(fsync);
const syncAhead = promisify(fdatasync);
/** Long files go to the disk while they are written, so that the last sync has little left to do. */
const syncEvery = 16 * 1024 * 1024;

/** A look at the whole file before it gets its name. */
type Look = (path: string) => Promise<CheckedBytes | undefined>;

/** Where a copied stream's bytes come from. */
export interface StreamBytes {
  readonly fd: number;
  readonly place: PdfStreamPlace;
}

/**
 * The file being written: one buffer, a hash that follows on a second core, the offset of every object.
 * It stands under a temporary name until `commit`; `abandon` leaves nothing.
 */
export class FinishedFile {
  readonly #path: string;
  readonly #part: string;
  readonly #fd: number;
  readonly #buffer = Buffer.allocUnsafe(bufferSize);
  readonly #aside = new HashAside();
  readonly #hash: GrowingHash;
  readonly #seed: Hash;
  #words = '';
  readonly #offsets: number[] = [0];
  #used = 0;
  #flushed = 0;
  #asked = 0;
  #syncing: Promise<unknown> = Promise.resolve();
  #fdOpen: number | undefined;

  /**
   * @param origins hashes of what the file is made from.
   * @throws LotfileError `disk`
   */
  constructor(path: string, origins: readonly string[]) {
    this.#path = path;
    this.#part = join(dirname(path), `.${basename(path)}.part`);
    try {
      this.#fd = openSync(this.#part, 'w+');
      this.#fdOpen = this.#fd;
    } catch (cause) {
      throw this.#diskError(cause);
    }
    this.#hash = this.#aside.growing(this.#fd);
    this.#seed = createHash('sha256').update(origins.join(' '));
    this.#text(header);
  }

  /** Bytes written so far. */
  get length(): number {
    return this.#flushed + this.#used;
  }

  /** A number for an object that is written later. */
  reserve(): number {
    return this.#offsets.push(0) - 1;
  }

  /** Writes an object under its reserved number. */
  write(num: number, value: PdfValue, mapRef: MapRef = ownValue): void {
    this.#begin(num);
    this.#text(serialise(value, mapRef));
    this.#text('\nendobj\n');
  }

  /** Reserves and writes in one go. */
  add(value: PdfValue, mapRef: MapRef = ownValue): FinishedRef {
    const num = this.reserve();
    this.write(num, value, mapRef);
    return new FinishedRef(num);
  }

  /** A stream of our own words, one character per byte. */
  addStream(entries: PdfDict, bytes: string, mapRef: MapRef = ownValue): FinishedRef {
    const num = this.reserve();
    this.#begin(num);
    this.#text(serialise(new Map([...entries, ['Length', bytes.length]]), mapRef));
    this.#text(`\nstream\n${bytes}\nendstream\nendobj\n`);
    return new FinishedRef(num);
  }

  /** A stream whose bytes are copied as they stand, in pieces. @throws LotfileError `disk` when they end early. */
  copyStream(num: number, headText: string, from: StreamBytes): void {
    this.#begin(num);
    this.#text(headText);
    this.#text('\nstream\n');
    let done = 0;
    while (done < from.place.length) {
      if (this.#used === bufferSize) this.#flush();
      const wanted = Math.min(bufferSize - this.#used, from.place.length - done);
      const room = this.#buffer.subarray(this.#used, this.#used + wanted);
      if (readFully(from.fd, room, from.place.start + done) !== wanted) {
        throw new LotfileError('disk', 'A kept paper became shorter while it was being read.', { about: this.#path });
      }
      this.#used += wanted;
      done += wanted;
    }
    this.#text('\nendstream\nendobj\n');
  }

  /**
   * Writes table and trailer, forces the bytes to disk and gives the file its name.
   * @param look runs meanwhile, on the whole file under its working name; what it throws comes first.
   */
  async commit(root: FinishedRef, info: FinishedRef, look: Look): Promise<CheckedBytes> {
    this.#writeTable(root, info);
    this.#flush();
    const hash = this.#hash.end(this.#flushed);
    // Heard below; a disk that fails first must not make it a failure nobody hears.
    hash.catch(() => undefined);
    try {
      await this.#syncing;
      const [seen, written, synced] = await Promise.allSettled([look(this.#part), hash, syncToDisk(this.#fd)]);
      for (const one of [seen, written, synced]) if (one.status === 'rejected') throw one.reason;
      const sha256 = await hash;
      const found = seen.status === 'fulfilled' ? seen.value : undefined;
      if (found !== undefined && (found.sha256 !== sha256 || found.bytes !== this.#flushed)) {
        throw new LotfileError('disk', 'The disk gives other bytes than were written to it.', {
          about: this.#path,
          next: 'Look after the disk, then assemble the packet again.',
        });
      }
      this.#close();
      renameSync(this.#part, this.#path);
      return { sha256, bytes: this.#flushed };
    } catch (cause) {
      throw cause instanceof LotfileError ? cause : this.#diskError(cause);
    }
  }

  /** Leaves nothing behind. */
  async abandon(): Promise<void> {
    await Promise.all([this.#syncing, this.#aside.end()]);
    this.#close();
    rmSync(this.#part, { force: true });
  }

  #writeTable(root: FinishedRef, info: FinishedRef): void {
    const at = this.length;
    // The file's own content names it: our words and the hashes of what was copied. No clock, no chance.
    const id = byteString(this.#seed.update(this.#words, 'latin1').digest().toString('latin1', 0, 16));
    let table = `xref\n0 ${this.#offsets.length}\n0000000000 65535 f \n`;
    for (let num = 1; num < this.#offsets.length; num += 1) {
      const offset = this.#offsets[num] ?? 0;
      if (offset === 0) throw new LotfileError('internal', `Object ${num} of the packet was never written.`);
      table += `${String(offset).padStart(10, '0')} 00000 n \n`;
      if (table.length > 60_000) {
        this.#put(table);
        table = '';
      }
    }
    this.#put(table);
    const trailer = dict({ Size: this.#offsets.length, Root: root, Info: info, ID: [id, id] });
    this.#put(`trailer\n${serialise(trailer, ownValue)}\nstartxref\n${at}\n%%EOF\n`);
  }

  #begin(num: number): void {
    if (this.#offsets[num] !== 0) throw new LotfileError('internal', `Object ${num} was written twice.`);
    this.#offsets[num] = this.length;
    this.#text(`${num} 0 obj\n`);
  }

  #text(text: string): void {
    this.#words += text;
    if (this.#words.length > 65_536) {
      this.#seed.update(this.#words, 'latin1');
      this.#words = '';
    }
    this.#put(text);
  }

  #put(text: string): void {
    for (let from = 0; from < text.length; ) {
      if (this.#used === bufferSize) this.#flush();
      const put = this.#buffer.write(from === 0 ? text : text.slice(from), this.#used, 'latin1');
      this.#used += put;
      from += put;
    }
  }

  /** Pieces are always whole buffers (but the last), so the disk sees aligned writes. */
  #flush(): void {
    const bytes = this.#buffer.subarray(0, this.#used);
    try {
      for (let done = 0; done < bytes.length; ) done += writeSync(this.#fd, bytes, done);
    } catch (cause) {
      throw this.#diskError(cause);
    }
    this.#flushed += this.#used;
    this.#used = 0;
    if (this.#flushed - this.#asked < syncEvery) return;
    this.#asked = this.#flushed;
    this.#hash.upTo(this.#flushed);
    // Only a head start: what fails here fails again, and is heard, in the sync before the file gets its name.
    this.#syncing = Promise.all([this.#syncing, syncAhead(this.#fd).catch(() => undefined)]);
  }

  #close(): void {
    if (this.#fdOpen !== undefined) closeSync(this.#fdOpen);
    this.#fdOpen = undefined;
  }

  #diskError(cause: unknown): LotfileError {
    return new LotfileError('disk', 'The packet could not be written.', {
      about: basename(this.#path),
      next: 'See that the disk has room and the folder may be written to, then build the packet again.',
      cause,
    });
  }
}
