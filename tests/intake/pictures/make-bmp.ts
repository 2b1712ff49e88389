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
