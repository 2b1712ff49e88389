import { TiffReader } from './tiff-tags.ts';

/**
 * The tags that decoding needs (TIFF 6.0; 347 and 512-521 JPEG inside; 330 and the camera's own directories lead
 * elsewhere and are left out).
 */
const decoded = new Set([
  254, 256, 257, 258, 259, 262, 266, 273, 274, 277, 278, 279, 282, 283, 284, 292, 293, 296, 317, 320, 322, 323, 324,
  325, 332, 333, 336, 338, 339, 347, 512, 513, 514, 515, 517, 518, 519, 520, 521, 529, 530, 531, 532,
]);

/** Bytes of one value by type: BYTE, ASCII, SHORT, LONG, RATIONAL, SBYTE, UNDEFINED, SSHORT, SLONG ... */
const sizes: Readonly<Record<number, number>> = {
  1: 1,
  2: 1,
  3: 2,
  4: 4,
  5: 8,
  6: 1,
  7: 1,
  8: 2,
  9: 4,
  10: 8,
  11: 4,
  12: 8,
  13: 4,
};

const mostTags = 500;

/** An entry whose values all lie in the file. */
function fits(reader: TiffReader, entry: number, length: number): boolean {
  const size = sizes[reader.short(entry + 2)];
  const count = reader.long(entry + 4);
  if (size === undefined || count === 0) return false;
  return size * count <= 4 || reader.long(entry + 8) + size * count <= length;
}

/** A tag and the one number it is given: a SHORT or LONG, by its size; none takes it away. */
export type GivenTag = readonly [tag: number, value?: number];

/** @param given stands in place of what the directory says */
function entriesAnew(bytes: Buffer, entries: readonly number[], given: readonly GivenTag[]): readonly Buffer[] {
  const reader = new TiffReader(bytes);
  const little = bytes.toString('latin1', 0, 2) === 'II';
  const kept = entries.filter((entry) => !given.some(([tag]) => tag === reader.short(entry)));
  const made = given.flatMap(([tag, value]) => {
    if (value === undefined) return [];
    const entry = Buffer.alloc(12);
    const [short, long] = little
      ? [entry.writeUInt16LE.bind(entry), entry.writeUInt32LE.bind(entry)]
      : [entry.writeUInt16BE.bind(entry), entry.writeUInt32BE.bind(entry)];
    short(tag, 0);
    // TIFF 6.0, section 2: type 3 is SHORT, 4 is LONG; a SHORT stands at the left of its four bytes.
    short(value > 0xffff ? 4 : 3, 2);
    long(1, 4);
    if (value > 0xffff) long(value, 8);
    else short(value, 8);
    return [{ tag, entry }];
  });
  return [...kept.map((at) => ({ tag: reader.short(at), entry: bytes.subarray(at, at + 12) })), ...made]
    .toSorted((a, b) => a.tag - b.tag)
    .map(({ entry }) => entry);
}

/**
 * The file with one clean directory at its end, which its head points at: only tags that decoding needs, none whose
 * values lie outside of the file, and nothing after it. A decoder that believes every count can be given that.
 * @param given tags that are to say something else
 */
export function aloneDirectory(bytes: Buffer, at: number, given: readonly GivenTag[] = []): Buffer {
  const reader = new TiffReader(bytes);
  const count = Math.min(reader.short(at), mostTags);
  const entries = Array.from({ length: count }, (_, index) => at + 2 + index * 12).filter(
    (entry) => entry + 12 <= bytes.length && decoded.has(reader.short(entry)) && fits(reader, entry, bytes.length),
  );
  const anew = entriesAnew(bytes, entries, given);
  const start = bytes.length + (bytes.length % 2);
  const made = Buffer.alloc(start + 2 + anew.length * 12 + 4);
  bytes.copy(made);
  const little = bytes.toString('latin1', 0, 2) === 'II';
  if (little) made.writeUInt32LE(start, 4);
  else made.writeUInt32BE(start, 4);
  if (little) made.writeUInt16LE(anew.length, start);
  else made.writeUInt16BE(anew.length, start);
  for (const [index, entry] of anew.entries()) entry.copy(made, start + 2 + index * 12);
  return made;
}
