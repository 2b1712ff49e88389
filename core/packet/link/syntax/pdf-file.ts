import { closeSync, fstatSync } from 'node:fs';
import { ByteWindow } from './byte-window.ts';
import { damaged } from './damage.ts';
import { ObjectParser } from './object-parser.ts';
import {
  isDict,
  numberOf,
  type PdfDict,
  type PdfObject,
  PdfRef,
  type PdfStreamPlace,
  type PdfValue,
} from './values.ts';
import { readXrefTable, type XrefTable } from './xref-table.ts';

const firstLook = 1024;
/** Objects that are asked for again soon: a page and its streams. More would outlive their use and swell the memory. */
const mostRemembered = 4;

/**
 * A PDF in the regular dialect, read by pieces: only dictionaries ever come into memory, stream bytes stay on disk.
 * Close it when done.
 */
export class PdfFile {
  readonly title: string;
  readonly fd: number;
  readonly size: number;
  readonly table: XrefTable;
  readonly #window: ByteWindow;
  readonly #remembered = new Map<number, PdfObject>();

  /** Takes over the open descriptor. @throws LotfileError `paper damaged` when the file isn't in the dialect. */
  constructor(title: string, fd: number) {
    this.title = title;
    this.fd = fd;
    this.size = fstatSync(fd).size;
    this.table = readXrefTable(fd, this.size, title);
    this.#window = new ByteWindow(fd, this.size);
  }

  close(): void {
    closeSync(this.fd);
  }

  /** How many object numbers the file knows (the highest plus one). */
  get count(): number {
    return this.table.offsets.length;
  }

  has(ref: PdfRef): boolean {
    return (this.table.offsets[ref.num] ?? 0) > 0 && this.table.gens[ref.num] === ref.gen;
  }

  /** Reads one indirect object; a missing one is null (ISO 32000-1, 7.3.10). @throws LotfileError `paper damaged` */
  object(ref: PdfRef): PdfObject {
    const offset = this.table.offsets[ref.num] ?? 0;
    if (offset === 0 || this.table.gens[ref.num] !== ref.gen) return { value: null };
    const known = this.#remembered.get(ref.num);
    if (known !== undefined) return known;
    const read = this.#lookUp(ref, offset);
    if (this.#remembered.size >= mostRemembered) this.#forgetOldest();
    this.#remembered.set(ref.num, read);
    return read;
  }

  #forgetOldest(): void {
    for (const num of this.#remembered.keys()) {
      this.#remembered.delete(num);
      return;
    }
  }

  #lookUp(ref: PdfRef, offset: number): PdfObject {
    for (let look = firstLook; ; look *= 4) {
      const piece = this.#window.at(offset, look);
      const parser = new ObjectParser(piece, 0, this.title);
      const reachesEnd = offset + piece.length >= this.size;
      try {
        const read = this.#read(parser, ref, offset);
        if (reachesEnd || !parser.ranOut) return read;
      } catch (error) {
        if (reachesEnd || !parser.ranOut) throw error;
      }
    }
  }

  /** Follows references until something direct is found. */
  resolve(value: PdfValue | undefined): PdfValue {
    let here = value ?? null;
    for (let steps = 0; here instanceof PdfRef; steps += 1) {
      if (steps > 32) throw damaged(this.title, 'a reference in it leads round in a circle');
      here = this.object(here).value;
    }
    return here;
  }

  /** The dictionary a value leads to, if it is one. */
  dictOf(value: PdfValue | undefined): PdfDict | undefined {
    const found = this.resolve(value);
    return isDict(found) ? found : undefined;
  }

  #read(parser: ObjectParser, ref: PdfRef, offset: number): PdfObject {
    const head = `${parser.keyword()} ${parser.keyword()} ${parser.keyword()}`;
    if (head !== `${ref.num} ${ref.gen} obj`) throw damaged(this.title, `object ${ref.num} is not in its place`);
    const value = parser.value();
    const after = parser.keyword();
    if (after === 'endobj') return { value };
    if (after !== 'stream' || !isDict(value)) throw damaged(this.title, `object ${ref.num} does not end`);
    parser.streamLineEnd();
    if (parser.ranOut) return { value };
    const start = parser.at;
    return { value, stream: this.#place(value, { start: offset + start, num: ref.num, read: parser.rest(start) }) };
  }

  /** A stream whose length doesn't lead to its own end would be copied wrongly, so each is looked at. */
  #place(value: PdfDict, at: { readonly start: number; readonly num: number; readonly read: Buffer }): PdfStreamPlace {
    const length = numberOf(value.get('Length'));
    if (length === undefined || length < 0 || !Number.isInteger(length) || at.start + length > this.size) {
      throw damaged(this.title, `the length of stream ${at.num} is wrong`);
    }
    const inHand = at.read.subarray(length, length + 16);
    // The next object most often stands right behind, so it is read in the same go.
    const closing = inHand.length < 16 ? this.#window.at(at.start + length, 16) : inHand;
    if (!isEndOfStream(closing)) throw damaged(this.title, `stream ${at.num} does not end where it should`);
    return { start: at.start, length };
  }
}

const endOfStream = Buffer.from('endstream', 'latin1');

/** "endstream", after at most one line end. */
function isEndOfStream(bytes: Buffer): boolean {
  const at = bytes[0] === 13 ? (bytes[1] === 10 ? 2 : 1) : bytes[0] === 10 ? 1 : 0;
  return bytes.subarray(at, at + endOfStream.length).equals(endOfStream);
}
