/** CIE 15: from L*a*b* back to tristimulus values, as fractions of the white's own. */
function fromCubeRoot(value: number): number {
  const linearBelow = 6 / 29;
  return value > linearBelow ? value ** 3 : 3 * linearBelow ** 2 * (value - 4 / 29);
}

/** The white of sRGB, D65 (IEC 61966-2-1). */
const white = [0.9505, 1, 1.089] as const;

/** IEC 61966-2-1: tristimulus values to linear red, green, blue; and the curve of its values. */
function toRgb(x: number, y: number, z: number): readonly [number, number, number] {
  const curve = (linear: number): number => {
    const held = Math.min(1, Math.max(0, linear));
    return Math.round(255 * (held <= 0.0031308 ? 12.92 * held : 1.055 * held ** (1 / 2.4) - 0.055));
  };
  return [
    curve(3.2406 * x - 1.5372 * y - 0.4986 * z),
    curve(-0.9689 * x + 1.8758 * y + 0.0415 * z),
    curve(0.0557 * x - 0.204 * y + 1.057 * z),
  ];
}

/**
 * Turns dots of L*a*b* (8 bits each, in place) into sRGB. Whatever white they were measured under becomes the paper's
 * white, as a person sees it.
 * @param signed a and b are signed (TIFF 6.0, section 23); else they are 128 too large, as colour profiles write them
 */
export function labToRgb(data: Buffer, signed: boolean): void {
  const known = new Map<number, readonly [number, number, number]>();
  for (let at = 0; at + 2 < data.length; at += 3) {
    const key = data.readUIntBE(at, 3);
    let rgb = known.get(key);
    if (rgb === undefined) {
      const [l, a, b] = [data[at] ?? 0, data[at + 1] ?? 0, data[at + 2] ?? 0];
      const centred = (value: number): number => (signed ? (value << 24) >> 24 : value - 128);
      const y = ((l * 100) / 255 + 16) / 116;
      const [x, z] = [y + centred(a) / 500, y - centred(b) / 200];
      rgb = toRgb(white[0] * fromCubeRoot(x), white[1] * fromCubeRoot(y), white[2] * fromCubeRoot(z));
      // A photo has more colours than are worth remembering.
      if (known.size < 100_000) known.set(key, rgb);
    }
    data.set(rgb, at);
  }
}
