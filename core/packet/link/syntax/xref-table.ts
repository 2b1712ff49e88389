import { readFully } from './byte-window.ts';
import { damaged } from './damage.ts';
import { ObjectParser } from './object-parser.ts';
import { isDict, type PdfDict } from './values.ts';

/** Where each object stands. Offset 0 means free: there is no such object. */
export interface XrefTable {
  readonly offsets: Float64Array;
  readonly gens: Uint16Array;
  readonly trailer: PdfDict;
}

const tailSize = 1024;
const largestTable = 256 * 1024 * 1024;
const mostObjects = 8_388_607;

/** Reads the one classic table of a file in the regular dialect (ISO 32000-1, 7.5.4). @throws LotfileError `paper damaged` */
export function readXrefTable(fd: number, size: number, title: string): XrefTable {
  const at = startOfTable(fd, size, title);
  if (size - at > largestTable) throw damaged(title, 'its table of contents is too long');
  const bytes = Buffer.allocUnsafe(size - at);
  if (readFully(fd, bytes, at) !== bytes.length) throw damaged(title, 'the file ends early');
  const parser = new ObjectParser(bytes, 0, title);
  if (parser.keyword() !== 'xref') throw damaged(title, 'it has no plain table of contents');
  const sections: Section[] = [];
  let reading = parser;
  for (;;) {
    const word = reading.keyword();
    if (word === 'trailer') break;
    const first = Number(word);
    const count = Number(reading.keyword());
    if (!/^\d+$/.test(word) || !Number.isInteger(count) || first + count > mostObjects) {
      throw damaged(title, 'its table of contents is broken');
    }
    const at = afterSpace(bytes, reading.at);
    sections.push({ at, first, count });
    reading = new ObjectParser(bytes, Math.min(bytes.length, at + count * entrySize), title);
  }
  const trailer = reading.value();
  if (!isDict(trailer)) throw damaged(title, 'it has no trailer');
  for (const key of ['Prev', 'XRefStm', 'Encrypt']) {
    if (trailer.has(key)) throw damaged(title, 'it was not written the way keeping writes pages');
  }
  return { ...readSections(bytes, sections, title), trailer };
}

function startOfTable(fd: number, size: number, title: string): number {
  const tail = Buffer.alloc(Math.min(tailSize, size));
  readFully(fd, tail, size - tail.length);
  const found = /startxref\s+(\d+)\s+%%EOF\s*$/.exec(tail.toString('latin1'));
  const at = Number(found?.[1] ?? 'none');
  if (!Number.isInteger(at) || at <= 0 || at >= size) throw damaged(title, 'the end of the file is missing');
  return at;
}

interface Section {
  /** Where its first entry begins. */
  readonly at: number;
  readonly first: number;
  readonly count: number;
}

/** Entries are exactly 20 bytes: "nnnnnnnnnn ggggg n", two line-end characters. */
const entrySize = 20;

function afterSpace(bytes: Buffer, from: number): number {
  let at = from;
  while (bytes[at] === 32 || bytes[at] === 13 || bytes[at] === 10) at += 1;
  return at;
}

function readSections(bytes: Buffer, sections: readonly Section[], title: string): Omit<XrefTable, 'trailer'> {
  const size = sections.reduce((most, { first, count }) => Math.max(most, first + count), 1);
  const offsets = new Float64Array(size);
  const gens = new Uint16Array(size);
  for (const { at: begin, first, count } of sections) {
    for (let i = 0, at = begin; i < count; i += 1, at += entrySize) {
      const offset = digits(bytes, at, 10);
      const gen = digits(bytes, at + 11, 5);
      const sort = bytes[at + 17];
      const spaced = bytes[at + 10] === 32 && bytes[at + 16] === 32;
      if (offset < 0 || gen < 0 || !spaced || (sort !== 0x6e && sort !== 0x66)) {
        throw damaged(title, 'its table of contents is broken');
      }
      if (sort === 0x66) continue;
      offsets[first + i] = offset;
      gens[first + i] = gen;
    }
  }
  return { offsets, gens };
}

/** So many decimal digits as a number; -1 where something else stands. */
function digits(bytes: Buffer, from: number, count: number): number {
  let value = 0;
  for (let at = from; at < from + count; at += 1) {
    const digit = (bytes[at] ?? 0) - 48;
    if (digit < 0 || digit > 9) return -1;
    value = value * 10 + digit;
  }
  return value;
}
