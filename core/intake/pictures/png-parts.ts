/** A plain PNG (8 bits, grey or RGB, no interlace) as PDF wants it: the compressed rows, verbatim. */
export interface PngParts {
  readonly width: number;
  readonly height: number;
  readonly components: 1 | 3;
  /** zlib data with a filter byte before each row: FlateDecode with predictor 15. */
  readonly data: Buffer;
}

/** Takes apart a PNG that we wrote ourselves (W3C PNG, 11.2); undefined where it is another sort of PNG. */
export function pngParts(bytes: Buffer): PngParts | undefined {
  const data: Buffer[] = [];
  for (let at = 8; at + 12 <= bytes.length; ) {
    const length = bytes.readUInt32BE(at);
    if (bytes.toString('latin1', at + 4, at + 8) === 'IDAT') data.push(bytes.subarray(at + 8, at + 8 + length));
    at += 12 + length;
  }
  const [depth, colour, , , interlace] = bytes.subarray(24, 29);
  if (data.length === 0 || depth !== 8 || interlace !== 0 || (colour !== 0 && colour !== 2)) return undefined;
  return {
    width: bytes.readUInt32BE(16),
    height: bytes.readUInt32BE(20),
    components: colour === 0 ? 1 : 3,
    data: Buffer.concat(data),
  };
}
