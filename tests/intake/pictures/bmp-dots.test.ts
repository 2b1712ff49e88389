import { describe, expect, it } from 'vitest';
import { bmpDots, bmpHead } from '../../../core/intake/pictures/bmp-dots.ts';

interface Written {
  readonly width: number;
  readonly height: number;
  readonly bits: number;
  readonly packing?: number;
  readonly colours?: readonly (readonly [red: number, green: number, blue: number])[];
  readonly masks?: readonly number[];
  readonly dots: readonly number[];
}

/** A BMP under a head of 40 bytes (BITMAPINFOHEADER), rows from the bottom, or with a negative height from the top. */
function bmp({ width, height, bits, packing = 0, colours = [], masks = [], dots }: Written): Buffer {
  const head = Buffer.alloc(54);
  const behind = Buffer.concat([
    ...masks.map((mask) => {
      const four = Buffer.alloc(4);
      four.writeUInt32LE(mask);
      return four;
    }),
    ...colours.map(([red, green, blue]) => Buffer.from([blue, green, red, 0])),
  ]);
  head.write('BM', 'latin1');
  head.writeUInt32LE(54 + behind.length, 10);
  head.writeUInt32LE(40, 14);
  head.writeInt32LE(width, 18);
  head.writeInt32LE(height, 22);
  head.writeUInt16LE(1, 26);
  head.writeUInt16LE(bits, 28);
  head.writeUInt32LE(packing, 30);
  return Buffer.concat([head, behind, Buffer.from(dots)]);
}

function dotsOf(written: Written): number[][] | undefined {
  const bytes = bmp(written);
  const data = bmpDots(bytes, bmpHead(bytes));
  if (data === undefined) return undefined;
  return Array.from({ length: data.length / 3 }, (_, n) => [...data.subarray(n * 3, n * 3 + 3)]);
}

/** Colour n is n, n, n: what comes out tells the index that went in. */
const greys = (count: number) => Array.from({ length: count }, (_, n) => [n, n, n] as const);

function indices(written: Omit<Written, 'colours'>): number[][] {
  const found = dotsOf({ ...written, colours: greys(2 ** written.bits) }) ?? [];
  const width = written.width;
  return Array.from({ length: found.length / width }, (_, y) =>
    found.slice(y * width, (y + 1) * width).map(([red = -1]) => red),
  );
}

describe('the dots of a BMP', () => {
  it('of palettes keep their colours, and grey stays grey (it came out cyan)', () => {
    const colours = [
      [10, 20, 30],
      [200, 100, 50],
    ] as const;
    for (const bits of [1, 4, 8]) {
      // Row by row from the bottom: first 1 1 1, above it 0 1 0.
      const rows = {
        1: [0b11100000, 0, 0, 0, 0b01000000, 0, 0, 0],
        4: [0x11, 0x10, 0, 0, 0x01, 0, 0, 0],
        8: [1, 1, 1, 0, 0, 1, 0, 0],
      }[bits];
      expect(dotsOf({ width: 3, height: 2, bits, colours, dots: rows ?? [] })).toEqual([
        colours[0],
        colours[1],
        colours[0],
        colours[1],
        colours[1],
        colours[1],
      ]);
    }
  });

  it('of 16, 24 and 32 bits are spread over the whole scale, with the masks the file names', () => {
    const one = { width: 1, height: -1 } as const;
    expect(dotsOf({ ...one, bits: 16, dots: [0x1f, 0x7c, 0, 0] })).toEqual([[255, 0, 255]]);
    expect(dotsOf({ ...one, bits: 24, dots: [3, 2, 1, 0] })).toEqual([[1, 2, 3]]);
    expect(dotsOf({ ...one, bits: 32, dots: [3, 2, 1, 0] })).toEqual([[1, 2, 3]]);
    const masks = [0xf800, 0x07e0, 0x001f];
    expect(dotsOf({ ...one, bits: 16, packing: 3, masks, dots: [0xe0, 0x07, 0, 0] })).toEqual([[0, 255, 0]]);
  });

  // The two examples of "Bitmap Compression", Microsoft's Windows GDI reference; the shift is 5 right, 1 on.
  const move = [0x00, 0x02, 0x05, 0x01];

  it('are taken out of run lengths of 8 bits as the published example says', () => {
    const dots = [
      0x03,
      0x04,
      0x05,
      0x06,
      0x00,
      0x03,
      0x45,
      0x56,
      0x67,
      0x00,
      0x02,
      0x78,
      ...move,
      0x02,
      0x78,
      0,
      0,
      0x09,
      0x1e,
      0,
      1,
    ];
    const [third, second, first] = indices({ width: 20, height: 3, bits: 8, packing: 1, dots });
    expect(first?.slice(0, 13)).toEqual([4, 4, 4, 6, 6, 6, 6, 6, 0x45, 0x56, 0x67, 0x78, 0x78]);
    expect(second).toEqual([...Array(18).fill(0), 0x78, 0x78]);
    expect(third?.slice(0, 10)).toEqual([...Array(9).fill(0x1e), 0]);
  });

  it('are taken out of run lengths of 4 bits as the published example says', () => {
    const dots = [
      0x03,
      0x04,
      0x05,
      0x06,
      0x00,
      0x06,
      0x45,
      0x56,
      0x67,
      0x00,
      0x04,
      0x78,
      ...move,
      0x04,
      0x78,
      0,
      0,
      0x09,
      0x1e,
      0,
      1,
    ];
    const [third, second, first] = indices({ width: 27, height: 3, bits: 4, packing: 2, dots });
    expect(first?.slice(0, 18)).toEqual([0, 4, 0, 0, 6, 0, 6, 0, 4, 5, 5, 6, 6, 7, 7, 8, 7, 8]);
    expect(second).toEqual([...Array(23).fill(0), 7, 8, 7, 8]);
    expect(third?.slice(0, 10)).toEqual([1, 14, 1, 14, 1, 14, 1, 14, 1, 0]);
  });

  it('are whole where only the mark at the end of the run lengths is missing, and not before', () => {
    const runs = { width: 3, height: 2, bits: 8, packing: 1 } as const;
    expect(indices({ ...runs, dots: [3, 1, 0, 0, 3, 2] })).toEqual([
      [2, 2, 2],
      [1, 1, 1],
    ]);
    expect(indices({ ...runs, dots: [3, 1, 0, 0, 2, 2] })).toEqual([]);
  });

  it('are none where the file breaks off, names a colour it does not have, or has another number of bits', () => {
    const whole = { width: 3, height: 2, bits: 24, dots: Array(24).fill(9) };
    expect(dotsOf(whole)).toHaveLength(6);
    expect(dotsOf({ ...whole, dots: Array(20).fill(9) })).toBeUndefined();
    expect(dotsOf({ ...whole, bits: 2 })).toBeUndefined();
    expect(dotsOf({ width: 2, height: 1, bits: 8, colours: greys(2), dots: [1, 7, 0, 0] })).toBeUndefined();
    expect(dotsOf({ width: 9, height: 2, bits: 8, packing: 1, colours: greys(9), dots: [5, 5] })).toBeUndefined();
  });
});
