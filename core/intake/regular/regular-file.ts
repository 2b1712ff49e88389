import type { ByteSource } from '../pdfium/byte-source.ts';
import { CutShort, Parser } from './parse.ts';
import { type Dict, type Entry, isDict, isRef, type Value } from './values.ts';

const firstLook = 16_384;
const cacheLimit = 4_000;

function textAt(source: ByteSource, offset: number, length: number): string {
  const bytes = Buffer.alloc(Math.max(0, Math.min(length, source.length - offset)));
  if (!source.read(offset, bytes)) throw new Error('The file ends too early.');
  return bytes.toString('latin1');
}

interface Table {
  readonly start: number;
  readonly trailer: Dict;
  /** Offset of each object, by number; 0 where there is none. */
  readonly offsets: readonly number[];
}

function readTable(source: ByteSource): Table {
  const tail = textAt(source, Math.max(0, source.length - 64), 64);
  const start = Number(/startxref\s+(\d+)\s+%%EOF\s*$/.exec(tail)?.[1]);
  if (!Number.isInteger(start)) throw new Error('The file has no regular ending.');
  const text = textAt(source, start, source.length - start);
  const head = /^xref\n0 (\d+)\n/.exec(text);
  if (head === null) throw new Error('The file has no single classic table of objects.');
  const count = Number(head[1]);
  const rows = head[0].length;
  const offsets = Array.from({ length: count }, (_, index) => {
    const row = text.slice(rows + index * 20, rows + index * 20 + 20);
    if (!/^\d{10} \d{5} [nf] \n$/.test(row)) throw new Error('The table of objects is not regular.');
    return row[17] === 'n' ? Number(row.slice(0, 10)) : 0;
  });
  const parser = new Parser(text, rows + count * 20);
  const trailer = parser.word() === 'trailer' ? parser.value() : null;
  if (!isDict(trailer)) throw new Error('The file has no trailer.');
  if (trailer.has('Encrypt') || trailer.has('Prev'))
    throw new Error('The file is locked, or has parts of older states.');
  return { start, trailer, offsets };
}

/**
 * Reads a file in the regular dialect object by object; bytes that aren't asked for are never read.
 * @throws Error where the file deviates from the dialect described in normalise.ts.
 */
export class RegularFile {
  readonly #source: ByteSource;
  readonly #offsets: readonly number[];
  readonly #sizes: ReadonlyMap<number, number>;
  readonly #cache = new Map<number, Entry>();
  readonly trailer: Dict;

  constructor(source: ByteSource) {
    this.#source = source;
    const table = readTable(source);
    this.trailer = table.trailer;
    this.#offsets = table.offsets;
    const sorted = table.offsets.filter((offset) => offset > 0).toSorted((a, b) => a - b);
    this.#sizes = new Map(sorted.map((offset, index) => [offset, (sorted[index + 1] ?? table.start) - offset]));
  }

  /** One more than the highest object number. */
  get size(): number {
    return this.#offsets.length;
  }

  /** Where the table of objects starts, for whoever appends to the file. */
  get tableStart(): number {
    return [...this.#sizes].reduce((end, [offset, size]) => Math.max(end, offset + size), 0);
  }

  /** How many bytes of the file the object takes. */
  bytesOf(number: number): number {
    return this.#sizes.get(this.#offsets[number] ?? 0) ?? 0;
  }

  entry(number: number): Entry {
    const known = this.#cache.get(number);
    if (known !== undefined) return known;
    const offset = this.#offsets[number] ?? 0;
    const entry = offset === 0 ? { value: null } : this.#read(number, offset);
    if (this.#cache.size >= cacheLimit) this.#cache.clear();
    this.#cache.set(number, entry);
    return entry;
  }

  /** Follows references to the value behind them. */
  resolve(value: Value | undefined): Value {
    let at: Value = value ?? null;
    for (let steps = 0; isRef(at); steps += 1) {
      if (steps > 32) return null;
      at = this.entry(at.ref).value;
    }
    return at;
  }

  /** The dictionary behind a value, or an empty one. */
  dict(value: Value | undefined): Dict {
    const found = this.resolve(value);
    return isDict(found) ? found : new Map();
  }

  /** The raw bytes of a stream object; undefined where the object is no stream. */
  streamBytes(number: number): Buffer | undefined {
    const data = this.entry(number).data;
    if (data === undefined) return undefined;
    const bytes = Buffer.alloc(data.length);
    return this.#source.read(data.offset, bytes) ? bytes : undefined;
  }

  #read(number: number, offset: number): Entry {
    const size = this.#sizes.get(offset) ?? 0;
    try {
      return this.#parse(number, offset, Math.min(size, firstLook));
    } catch (problem) {
      if (!(problem instanceof CutShort) || size <= firstLook) throw problem;
      return this.#parse(number, offset, size);
    }
  }

  #parse(number: number, offset: number, length: number): Entry {
    const text = textAt(this.#source, offset, length);
    const parser = new Parser(text);
    const opening = `${parser.word()} ${parser.word()} ${parser.word()}`;
    if (opening !== `${number} 0 obj`) throw new Error(`Object ${number} is not where the table says.`);
    const value = parser.value();
    const after = /^\s*(\w{0,6})/.exec(text.slice(parser.position, parser.position + 16))?.[1] ?? '';
    if (after === 'endobj') return { value };
    if (!'endobj'.startsWith(after) && !'stream'.startsWith(after)) throw new Error(`Object ${number} has no end.`);
    if (after !== 'stream') throw new CutShort('The object is cut short.');
    const direct = isDict(value) ? value.get('Length') : undefined;
    if (typeof direct !== 'number') throw new Error(`Stream ${number} has no direct length.`);
    const start = text.indexOf('stream\n', parser.position) + 'stream\n'.length;
    return { value, data: { offset: offset + start, length: direct } };
  }
}
