/** A BMP of 24 bits (BITMAPINFOHEADER), rows from the bottom or, with a negative height, from the top. */
export function bmpOf(rgb: Buffer, width: number, height: number, fromTop: boolean): Buffer {
  const row = Math.ceil((width * 3) / 4) * 4;
  const head = Buffer.alloc(54);
  head.write('BM', 'latin1');
  head.writeUInt32LE(54 + row * height, 2);
  head.writeUInt32LE(54, 10);
  head.writeUInt32LE(40, 14);
  head.writeInt32LE(width, 18);
  head.writeInt32LE(fromTop ? -height : height, 22);
  head.writeUInt16LE(1, 26);
  head.writeUInt16LE(24, 28);
  const data = Buffer.alloc(row * height);
  for (let y = 0; y < height; y += 1) {
    const to = (fromTop ? y : height - 1 - y) * row;
    for (let x = 0; x < width; x += 1) {
      const from = (y * width + x) * 3;
      data.set([rgb[from + 2] ?? 0, rgb[from + 1] ?? 0, rgb[from] ?? 0], to + x * 3);
    }
  }
  return Buffer.concat([head, data]);
}

/** How an older system wrote a BMP: its first head of 12 bytes (BITMAPCOREHEADER), or the second of 64, cut at will. */
export interface OldBmp {
  readonly head: 12 | 16 | 64;
  readonly bits: 1 | 8 | 24;
}

const oldPalette = [
  [235, 235, 235],
  [20, 30, 60],
  [200, 30, 30],
] as const;

/** Which colour of the old palette a dot of the L is; of one bit, dark or light. */
function indexOf(red: number, bits: number): number {
  if (red > 220) return 0;
  return red < 100 || bits === 1 ? 1 : 2;
}

/** An OS/2 BMP: rows from the bottom, palettes of three bytes under the first head and four under the second. */
export function oldBmpOf(rgb: Buffer, size: { readonly width: number; readonly height: number }, old: OldBmp): Buffer {
  const { width, height } = size;
  const { head: headSize, bits } = old;
  const colours = bits === 24 ? 0 : 2 ** bits;
  const palette = Buffer.concat(
    Array.from({ length: colours }, (_, n) => {
      const [red, green, blue] = oldPalette[n] ?? [0, 0, 0];
      return Buffer.from(headSize === 12 ? [blue, green, red] : [blue, green, red, 0]);
    }),
  );
  const row = Math.ceil((width * bits) / 32) * 4;
  const head = Buffer.alloc(14 + headSize);
  head.write('BM', 'latin1');
  head.writeUInt32LE(head.length + palette.length + row * height, 2);
  head.writeUInt32LE(head.length + palette.length, 10);
  head.writeUInt32LE(headSize, 14);
  if (headSize === 12) {
    head.writeUInt16LE(width, 18);
    head.writeUInt16LE(height, 20);
  } else {
    head.writeUInt32LE(width, 18);
    head.writeUInt32LE(height, 22);
  }
  head.writeUInt16LE(1, headSize === 12 ? 22 : 26);
  head.writeUInt16LE(bits, headSize === 12 ? 24 : 28);
  const data = Buffer.alloc(row * height);
  for (let y = 0; y < height; y += 1) {
    const to = (height - 1 - y) * row;
    for (let x = 0; x < width; x += 1) {
      const from = (y * width + x) * 3;
      const red = rgb[from] ?? 0;
      if (bits === 24) data.set([rgb[from + 2] ?? 0, rgb[from + 1] ?? 0, red], to + x * 3);
      else if (bits === 8) data[to + x] = indexOf(red, bits);
      else data[to + (x >> 3)] = (data[to + (x >> 3)] ?? 0) | (indexOf(red, bits) << (7 - (x & 7)));
    }
  }
  return Buffer.concat([head, palette, data]);
}
