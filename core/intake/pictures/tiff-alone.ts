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

/**
 * The file with one clean directory at its end, which its head points at: only tags that decoding needs, none whose
 * values lie outside of the file, and nothing after it. A decoder that believes every count can be given that.
 */
export function aloneDirectory(bytes: Buffer, at: number): Buffer {
  const reader = new TiffReader(bytes);
  const count = Math.min(reader.short(at), mostTags);
  const entries = Array.from({ length: count }, (_, index) => at + 2 + index * 12).filter(
    (entry) => entry + 12 <= bytes.length && decoded.has(reader.short(entry)) && fits(reader, entry, bytes.length),
  );
  const start = bytes.length + (bytes.length % 2);
  const made = Buffer.alloc(start + 2 + entries.length * 12 + 4);
  bytes.copy(made);
  const little = bytes.toString('latin1', 0, 2) === 'II';
  if (little) made.writeUInt32LE(start, 4);
  else made.writeUInt32BE(start, 4);
  if (little) made.writeUInt16LE(entries.length, start);
  else made.writeUInt16BE(entries.length, start);
  for (const [index, entry] of entries.entries()) bytes.copy(made, start + 2 + index * 12, entry, entry + 12);
  return made;
}
