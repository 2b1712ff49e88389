import { createHash, type Hash } from 'node:crypto';
import { closeSync, fsync, openSync, renameSync, rmSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { promisify } from 'node:util';
import { LotfileError } from '../../vocabulary/errors.ts';
import { Aside, type AsideWriter, type EqualSpan } from './aside.ts';
import { type MapRef, ownValue, serialise } from './syntax/serialise.ts';
import { byteString } from './syntax/text-string.ts';
import { dict, FinishedRef, type PdfDict, type PdfStreamPlace, type PdfValue } from './syntax/values.ts';

/** The second line's high bytes tell transfer programs that the file is binary (ISO 32000-1, 7.5.2). */
const header = '%PDF-1.7\n%\xe2\xe3\xcf\xd3\n';
const syncToDisk = promisify(fsync);
/** So many bytes go to the writing thread at once: often enough to keep it busy, seldom enough to cost nothing. */
const batchBytes = 2 * 1024 * 1024;
const batchText = 128 * 1024;

/** Where a copied stream's bytes come from. */
export interface StreamBytes {
  readonly fd: number;
  readonly place: PdfStreamPlace;
}

/** A whole file that has no name yet: where it stands, and every stream copied into it by its offset. */
export interface Unnamed {
  readonly path: string;
  readonly copied: ReadonlyMap<number, EqualSpan>;
}

/**
 * The file being written. Here only places are worked out: which object stands where, which bytes come next; they are
 * written, hashed and compared on a second core. It stands under a temporary name until `commit`; `abandon` leaves
 * nothing.
 */
export class FinishedFile {
  readonly #path: string;
  readonly #part: string;
  readonly #aside = new Aside();
  readonly #writer: AsideWriter;
  readonly #seed: Hash;
  readonly #offsets: number[] = [0];
  readonly #copied = new Map<number, EqualSpan>();
  readonly #fd: number;
  #open = true;
  #length = 0;
  /** The next batch: where it begins, its texts, its parts. */
  #from = 0;
  #said = '';
  #parts: number[] = [];
  /** Where the length of the last part stands, if that is text; else -1. */
  #textPart = -1;

  /**
   * @param origins hashes of what the file is made from.
   * @throws LotfileError `disk`
   */
  constructor(path: string, origins: readonly string[]) {
    this.#path = path;
    this.#part = join(dirname(path), `.${basename(path)}.part`);
    try {
      this.#fd = openSync(this.#part, 'w+');
    } catch (cause) {
      throw this.#diskError(cause);
    }
    this.#writer = this.#aside.writer(this.#fd);
    this.#seed = createHash('sha256').update(origins.join(' '));
    this.#text(header);
  }

  /** Bytes written so far. */
  get length(): number {
    return this.#length;
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

  /** A stream whose bytes are copied as they stand. */
  copyStream(num: number, headText: string, { fd, place }: StreamBytes): void {
    this.#begin(num);
    this.#text(`${headText}\nstream\n`);
    const { start: from, length } = place;
    this.#copied.set(this.#length, { fd, from, at: this.#length, length });
    this.#parts.push(fd, from, length);
    this.#textPart = -1;
    this.#length += length;
    this.#text('\nendstream\nendobj\n');
  }

  /**
   * Writes table and trailer, forces the bytes to disk and gives the file its name. Meanwhile the file is hashed as it
   * reads back, and every copied stream in it compared with the kept bytes.
   * @param look runs meanwhile, on the whole file under its working name; what it throws comes first.
   */
  async commit(
    root: FinishedRef,
    info: FinishedRef,
    look: (made: Unnamed) => Promise<void>,
  ): Promise<{ readonly sha256: string; readonly bytes: number }> {
    try {
      this.#writeTable(root, info);
      await this.#writer.end();
      const bytes = this.#length;
      const reading = this.#aside.look(this.#fd, bytes, [...this.#copied.values()]);
      const made = { path: this.#part, copied: this.#copied };
      const [looked, seen, synced] = await Promise.allSettled([look(made), reading, syncToDisk(this.#fd)]);
      for (const one of [looked, seen, synced]) if (one.status === 'rejected') throw one.reason;
      const { sha256, differsAt } = await reading;
      if (differsAt !== undefined) {
        throw new LotfileError('disk', `The disk gives other bytes than were written to it, at byte ${differsAt}.`, {
          about: this.#path,
          next: 'Look after the disk, then assemble the packet again.',
        });
      }
      this.#close();
      renameSync(this.#part, this.#path);
      return { sha256, bytes };
    } catch (cause) {
      throw cause instanceof LotfileError ? cause : this.#diskError(cause);
    }
  }

  /** Leaves nothing behind. */
  async abandon(): Promise<void> {
    await this.#aside.end();
    this.#close();
    rmSync(this.#part, { force: true });
  }

  #writeTable(root: FinishedRef, info: FinishedRef): void {
    this.#send();
    const at = this.#length;
    // The file's own content names it: our words and the hashes of what was copied. No clock, no chance.
    const id = byteString(this.#seed.digest().toString('latin1', 0, 16));
    let table = `xref\n0 ${this.#offsets.length}\n0000000000 65535 f \n`;
    for (let num = 1; num < this.#offsets.length; num += 1) {
      const offset = this.#offsets[num] ?? 0;
      if (offset === 0) throw new LotfileError('internal', `Object ${num} of the packet was never written.`);
      table += `${String(offset).padStart(10, '0')} 00000 n \n`;
    }
    const trailer = dict({ Size: this.#offsets.length, Root: root, Info: info, ID: [id, id] });
    this.#put(`${table}trailer\n${serialise(trailer, ownValue)}\nstartxref\n${at}\n%%EOF\n`);
    this.#hand(Buffer.from(this.#said, 'latin1'));
  }

  #begin(num: number): void {
    if (this.#offsets[num] !== 0) throw new LotfileError('internal', `Object ${num} was written twice.`);
    this.#offsets[num] = this.#length;
    this.#text(`${num} 0 obj\n`);
  }

  #text(text: string): void {
    this.#put(text);
    if (this.#length - this.#from >= batchBytes || this.#said.length >= batchText) this.#send();
  }

  #put(text: string): void {
    if (this.#textPart < 0) this.#textPart = this.#parts.push(-1, 0, 0) - 1;
    this.#parts[this.#textPart] = (this.#parts[this.#textPart] ?? 0) + text.length;
    this.#said += text;
    this.#length += text.length;
  }

  /** What is said up to here names the file. */
  #send(): void {
    const text = Buffer.from(this.#said, 'latin1');
    this.#seed.update(text);
    this.#hand(text);
  }

  #hand(text: Uint8Array): void {
    this.#writer.write({ at: this.#from, text, parts: Float64Array.from(this.#parts) });
    this.#from = this.#length;
    this.#said = '';
    this.#parts = [];
    this.#textPart = -1;
  }

  #close(): void {
    if (this.#open) closeSync(this.#fd);
    this.#open = false;
  }

  #diskError(cause: unknown): LotfileError {
    return new LotfileError('disk', 'The packet could not be written.', {
      about: basename(this.#path),
      next: 'See that the disk has room and the folder may be written to, then build the packet again.',
      cause,
    });
  }
}
