import sharp from 'sharp';

/** A picture that looks different under every turn and mirroring: a dark L with a red foot. */
export function letterL(width = 600, height = 400): Buffer {
  const pixels = Buffer.alloc(width * height * 3, 235);
  const paint = (left: number, top: number, right: number, bottom: number, colour: readonly number[]) => {
    for (let y = Math.round(top * height); y < bottom * height; y += 1) {
      for (let x = Math.round(left * width); x < right * width; x += 1) pixels.set(colour, (y * width + x) * 3);
    }
  };
  paint(0.1, 0.1, 0.25, 0.9, [20, 30, 60]);
  paint(0.1, 0.75, 0.7, 0.9, [200, 30, 30]);
  return pixels;
}

/** A sharp instance over the L. */
export function drawnL(width = 600, height = 400): ReturnType<typeof sharp> {
  return sharp(letterL(width, height), { raw: { width, height, channels: 3 } });
}

/** A JPEG as a phone writes it: the stored pixels turned, EXIF 1-8 saying how to undo it, no density to trust. */
export async function phoneJpeg(orientation: number): Promise<Buffer> {
  return await drawnL()
    .jpeg({ quality: 90 })
    .withExif({ IFD2: { FocalLength: '4/1', FNumber: '2/1' }, IFD3: { GPSLatitude: '36/1 30/1 0/1' } })
    .withMetadata({ orientation })
    .toBuffer();
}

/**
 * Which upright pixel a stored pixel (column, row; fractions 0-1) shows, straight from the table of JEITA CP-3451, tag
 * 274: the side of the picture that stored row 0 and stored column 0 are.
 */
const uprightOf: Readonly<Record<number, (column: number, row: number) => readonly [x: number, y: number]>> = {
  1: (column, row) => [column, row], // row 0 top, column 0 left
  2: (column, row) => [1 - column, row], // top, right
  3: (column, row) => [1 - column, 1 - row], // bottom, right
  4: (column, row) => [column, 1 - row], // bottom, left
  5: (column, row) => [row, column], // left, top
  6: (column, row) => [1 - row, column], // right, top
  7: (column, row) => [1 - row, 1 - column], // right, bottom
  8: (column, row) => [row, 1 - column], // left, bottom
};

/** A stored JPEG that comes out as the upright L (600 x 400) once `orientation` is honoured. */
export async function storedFor(orientation: number): Promise<Buffer> {
  const upright = letterL();
  const [width, height] = orientation >= 5 ? [400, 600] : [600, 400];
  const stored = Buffer.alloc(upright.length);
  for (let row = 0; row < height; row += 1) {
    for (let column = 0; column < width; column += 1) {
      const [x, y] = uprightOf[orientation]?.((column + 0.5) / width, (row + 0.5) / height) ?? [0, 0];
      const from = (Math.floor(y * 400) * 600 + Math.floor(x * 600)) * 3;
      upright.copy(stored, (row * width + column) * 3, from, from + 3);
    }
  }
  return await sharp(stored, { raw: { width, height, channels: 3 } })
    .jpeg({ quality: 92 })
    .withMetadata({ orientation })
    .toBuffer();
}

/** The same JPEG with a density in its JFIF header (ITU-T T.871, 10.1), and no other notes. */
export function withDensity(jpeg: Buffer, dotsPerInch: number): Buffer {
  const header = Buffer.from('ffe000104a46494600010101000000000000', 'hex');
  header.writeUInt16BE(dotsPerInch, 12);
  header.writeUInt16BE(dotsPerInch, 14);
  const rest = jpeg[3] === 0xe0 ? 4 + jpeg.readUInt16BE(4) : 2;
  return Buffer.concat([jpeg.subarray(0, 2), header, jpeg.subarray(rest)]);
}
