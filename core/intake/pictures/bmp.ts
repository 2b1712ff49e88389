import { readFileSync } from 'node:fs';
import sharp, { type Sharp } from 'sharp';
import { withinTime } from '../within-time.ts';
import { bmpDots, bmpHead } from './bmp-dots.ts';
import { usualBmp } from './bmp-head.ts';
import { dotsOf } from './dots-to-page.ts';
import { checkSize, damaged, secondsLimit } from './limits.ts';
import type { Density, OpenPictures, OpenSheet } from './picture-model.ts';

const inchesPerMetre = 39.3701;

/** BITMAPINFOHEADER: dots per metre. */
function densityOf(bytes: Buffer): Density | undefined {
  const [x, y] = [bytes.readInt32LE(38) / inchesPerMetre, bytes.readInt32LE(42) / inchesPerMetre];
  return x > 0 && y > 0 ? { x: Math.round(x), y: Math.round(y), known: true } : undefined;
}

/** Memory for the dots is only taken where the file could hold them: two bytes of a run say at most 255 dots. */
function mayHold(bytes: Buffer, { width, height, bits, packing }: ReturnType<typeof bmpHead>): boolean {
  const packed = packing === 1 || packing === 2;
  return bytes.length >= (packed ? (width * height) / 255 / 2 : (width * bits * height) / 8 / 2);
}

/**
 * Opens a BMP; sharp reads none.
 * @throws LotfileError `file refused`
 */
export function openBmp(path: string, name: string): OpenPictures {
  const bytes = usualBmp(readFileSync(path), name);
  const head = bmpHead(bytes);
  const { width, height } = head;
  checkSize(name, width, height);
  if (!mayHold(bytes, head)) throw damaged(name);
  const data = withinTime(secondsLimit, () => bmpDots(bytes, head));
  if (data === undefined) throw damaged(name);
  const upright = (): Sharp =>
    sharp(data, { raw: { width, height, channels: 3 }, limitInputPixels: false }).timeout({ seconds: secondsLimit });
  const sheet = async (): Promise<OpenSheet> => {
    const grey = data.every((value, at) => value === data[at - (at % 3)]);
    const { picture, way } = await dotsOf(upright, { pixels: width * height, grey });
    return { picture, way, orientation: 1, density: densityOf(bytes), camera: false, notes: [], upright };
  };
  return { count: 1, notes: [], sheet };
}
