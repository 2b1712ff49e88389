/** One picture of a TIFF, uncompressed unless its data says otherwise (TIFF 6.0). */
export interface TiffPicture {
  readonly width: number;
  readonly height: number;
  readonly bits: number;
  readonly data: Buffer;
  readonly samples?: 1 | 2 | 3 | 4;
  readonly compression?: number;
  readonly orientation?: number;
  readonly subfile?: number;
  readonly resolution?: readonly [x: number, y: number];
  /** 1 none, 2 inch, 3 centimetre. */
  readonly unit?: number;
  readonly photometric?: number;
  readonly more?: readonly (readonly [tag: number, type: number, value: number, count?: number])[];
}

function directory(picture: TiffPicture, dataAt: number, rationalsAt: number): readonly (readonly number[])[] {
  const { width, height, bits, data, samples = 1, compression = 1, orientation = 1, subfile = 0, unit = 2 } = picture;
  const entries: (readonly number[])[] = [
    [254, 4, 1, subfile],
    [256, 4, 1, width],
    [257, 4, 1, height],
    [258, 3, 1, bits],
    [259, 3, 1, compression],
    [262, 3, 1, picture.photometric ?? (samples === 3 ? 2 : 1)],
    [273, 4, 1, dataAt],
    [274, 3, 1, orientation],
    [277, 3, 1, samples],
    [278, 4, 1, height],
    [279, 4, 1, data.length],
    ...(picture.resolution === undefined
      ? []
      : [
          [282, 5, 1, rationalsAt],
          [283, 5, 1, rationalsAt + 8],
          [296, 3, 1, unit],
        ]),
    ...(picture.more ?? []).map(([tag, type, value, count = 1]) => [tag, type, count, value]),
  ];
  // What `more` says stands in place of the usual entry.
  const last = entries.filter(([tag], at) => !entries.slice(at + 1).some(([other]) => other === tag));
  return last.toSorted(([a = 0], [b = 0]) => a - b);
}

/** Writes a little-endian TIFF of one or more pictures. */
export function tiffOf(pictures: readonly TiffPicture[]): Buffer {
  const parts: Buffer[] = [Buffer.from('II*\0\0\0\0\0', 'latin1')];
  let at = 8;
  let pointer = { part: parts[0] ?? Buffer.alloc(8), offset: 4 };
  for (const picture of pictures) {
    const rationals = Buffer.alloc(16);
    for (const [index, value] of (picture.resolution ?? [1, 1]).entries()) {
      rationals.writeUInt32LE(Math.round(value * 1000), index * 8);
      rationals.writeUInt32LE(1000, index * 8 + 4);
    }
    const padded = Buffer.concat([picture.data, Buffer.alloc(picture.data.length % 2)]);
    const entries = directory(picture, at, at + padded.length);
    const table = Buffer.alloc(2 + entries.length * 12 + 4);
    table.writeUInt16LE(entries.length, 0);
    for (const [index, [tag = 0, type = 0, count = 0, value = 0]] of entries.entries()) {
      const from = 2 + index * 12;
      table.writeUInt16LE(tag, from);
      table.writeUInt16LE(type, from + 2);
      table.writeUInt32LE(count, from + 4);
      table.writeUInt32LE(value, from + 8);
    }
    pointer.part.writeUInt32LE(at + padded.length + 16, pointer.offset);
    pointer = { part: table, offset: table.length - 4 };
    parts.push(padded, rationals, table);
    at += padded.length + 16 + table.length;
  }
  return Buffer.concat(parts);
}

/** One bit a dot, 1 is white (photometric 1): a black bar along the upper edge. */
export function barredTwoTone(width: number, height: number): Buffer {
  const across = Math.ceil(width / 8);
  return Buffer.alloc(across * height, 0xff).fill(0, 0, across * Math.round(height / 4));
}

/** Samples of 1 to 16 bits from values of 8, laid as TIFF 6.0 says: the highest bit first, each row from a byte on. */
export function packedSamples(values: Uint8Array, at: { readonly bits: number; readonly across: number }): Buffer {
  const rows = values.length / at.across;
  const row = Math.ceil((at.across * at.bits) / 8);
  const packed = Buffer.alloc(row * rows);
  values.forEach((value, index) => {
    const full = Math.round((value / 255) * (2 ** at.bits - 1));
    const start = Math.floor(index / at.across) * row * 8 + (index % at.across) * at.bits;
    for (let bit = 0; bit < at.bits; bit += 1) {
      const place = start + bit;
      if ((full >> (at.bits - 1 - bit)) & 1) packed[place >> 3] = (packed[place >> 3] ?? 0) | (0x80 >> (place & 7));
    }
  });
  return packed;
}
