import { LotfileError } from '../../vocabulary/errors.ts';
import { damaged, otherSort } from './limits.ts';

const fileHead = 14;
const usualHead = 40;

/** Heads that the decoder takes: BITMAPINFOHEADER and those that grew out of it. */
const known: ReadonlySet<number> = new Set([40, 52, 56, 108, 124]);

/** What a picture's head says, whoever wrote it. */
interface Said {
  readonly width: number;
  readonly height: number;
  readonly bits: number;
  readonly packing: number;
  /** Bytes of one colour of the palette. */
  readonly colour: 3 | 4;
}

/** BITMAPCOREHEADER: sizes in 16 bits each. */
function coreHead(bytes: Buffer): Said {
  return {
    width: bytes.readUInt16LE(18),
    height: bytes.readUInt16LE(20),
    bits: bytes.readUInt16LE(24),
    packing: 0,
    colour: 3,
  };
}

/** The second head of that system (16 to 64 bytes): begins as BITMAPINFOHEADER does, and may end anywhere. */
function secondHead(bytes: Buffer, size: number): Said {
  return {
    width: bytes.readUInt32LE(18),
    height: bytes.readInt32LE(22),
    bits: bytes.readUInt16LE(28),
    packing: size >= 20 ? bytes.readUInt32LE(30) : 0,
    colour: 4,
  };
}

/** The palette with four bytes a colour, as newer heads have it. */
function paletteOf(bytes: Buffer, from: number, { bits, colour }: Said): Buffer {
  const told = bits > 8 ? 0 : 2 ** bits;
  const count = Math.min(told, Math.max(0, Math.floor((bytes.readUInt32LE(10) - from) / colour)));
  const palette = Buffer.alloc(told * 4);
  for (let at = 0; at < count; at += 1) bytes.copy(palette, at * 4, from + at * colour, from + at * colour + 3);
  return palette;
}

function underUsualHead(bytes: Buffer, said: Said, palette: Buffer): Buffer {
  const head = Buffer.alloc(fileHead + usualHead);
  const start = bytes.readUInt32LE(10);
  const at = head.length + palette.length;
  head.write('BM', 'latin1');
  head.writeUInt32LE(at + Math.max(0, bytes.length - start), 2);
  head.writeUInt32LE(at, 10);
  head.writeUInt32LE(usualHead, 14);
  head.writeInt32LE(said.width, 18);
  head.writeInt32LE(said.height, 22);
  head.writeUInt16LE(1, 26);
  head.writeUInt16LE(said.bits, 28);
  head.writeUInt32LE(said.packing, 30);
  return Buffer.concat([head, palette, bytes.subarray(start)]);
}

/**
 * The BMP under the head that decoders know. The two older ones (OS/2 1.x: 12 bytes; 2.x: 16 to 64) say the same in
 * other places.
 * @throws LotfileError `file refused` where its rows are packed as hardly any program packs them
 */
export function usualBmp(bytes: Buffer, name: string): Buffer {
  const size = bytes.length < 26 ? 0 : bytes.readUInt32LE(14);
  if (known.has(size)) return namedPacking(bytes, name);
  if (size !== 12 && (size < 16 || size > 64 || bytes.length < fileHead + size)) throw damaged(name);
  try {
    const said = size === 12 ? coreHead(bytes) : secondHead(bytes, size);
    // 3 and 4 there are fax coding and run lengths of whole colours.
    if (said.packing > 2) throw rarelyPacked(name);
    return underUsualHead(bytes, said, paletteOf(bytes, fileHead + size, said));
  } catch (problem) {
    if (problem instanceof LotfileError) throw problem;
    throw damaged(name);
  }
}

function rarelyPacked(name: string): LotfileError {
  return otherSort(name, 'is a BMP whose dots are packed in a way that hardly any program reads.');
}

/** Of the newer packings, a whole JPEG (4) or PNG (5) inside is for printers alone. */
function namedPacking(bytes: Buffer, name: string): Buffer {
  if (bytes.length < fileHead + usualHead) throw damaged(name);
  const packing = bytes.readUInt32LE(30);
  if (packing === 4 || packing === 5) throw rarelyPacked(name);
  return bytes;
}
