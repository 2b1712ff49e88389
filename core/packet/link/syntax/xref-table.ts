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
  const entries = new Map<number, readonly [number, number]>();
  let reading = parser;
  for (;;) {
    const word = reading.keyword();
    if (word === 'trailer') break;
    const first = Number(word);
    const count = Number(reading.keyword());
    if (!/^\d+$/.test(word) || !Number.isInteger(count) || first + count > mostObjects) {
      throw damaged(title, 'its table of contents is broken');
    }
    const end = readSection(bytes, { at: reading.at, first, count, title }, entries);
    reading = new ObjectParser(bytes, end, title);
  }
  const trailer = reading.value();
  if (!isDict(trailer)) throw damaged(title, 'it has no trailer');
  for (const key of ['Prev', 'XRefStm', 'Encrypt']) {
    if (trailer.has(key)) throw damaged(title, 'it was not written the way keeping writes pages');
  }
  return { ...arrays(entries), trailer };
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
  readonly at: number;
  readonly first: number;
  readonly count: number;
  readonly title: string;
}

/** Entries are exactly 20 bytes: "nnnnnnnnnn ggggg n", two line-end characters. */
function readSection(bytes: Buffer, section: Section, into: Map<number, readonly [number, number]>): number {
  let at = section.at;
  while (bytes[at] === 32 || bytes[at] === 13 || bytes[at] === 10) at += 1;
  for (let i = 0; i < section.count; i += 1, at += 20) {
    const line = bytes.toString('latin1', at, at + 18);
    const read = /^(\d{10}) (\d{5}) ([nf])$/.exec(line);
    if (read === null) throw damaged(section.title, 'its table of contents is broken');
    if (read[3] === 'n') into.set(section.first + i, [Number(read[1]), Number(read[2])]);
  }
  return at;
}

function arrays(entries: ReadonlyMap<number, readonly [number, number]>): Pick<XrefTable, 'offsets' | 'gens'> {
  let top = 0;
  for (const num of entries.keys()) top = Math.max(top, num);
  const offsets = new Float64Array(top + 1);
  const gens = new Uint16Array(top + 1);
  for (const [num, [offset, gen]] of entries) {
    offsets[num] = offset;
    gens[num] = gen;
  }
  return { offsets, gens };
}
