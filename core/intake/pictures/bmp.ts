import { readFileSync } from 'node:fs';
import { decode } from 'bmp-ts';
import sharp, { type Sharp } from 'sharp';
import { withinTime } from '../within-time.ts';
import { dotsOf } from './dots-to-page.ts';
import { checkSize, damaged, secondsLimit } from './limits.ts';
import type { Density, OpenPictures, OpenSheet } from './picture-model.ts';

const inchesPerMetre = 39.3701;

/** BITMAPINFOHEADER: width, height (negative where rows run from the top), dots per metre. */
interface BmpHead {
  readonly width: number;
  readonly height: number;
  readonly density: Density | undefined;
}

function headOf(bytes: Buffer, name: string): BmpHead {
  // The head of an older system (BITMAPCOREHEADER, 12 bytes and its kin) has its sizes elsewhere; no reader here takes it.
  if (bytes.length < 54 || bytes.readUInt32LE(14) < 40) throw damaged(name);
  const [x, y] = [bytes.readInt32LE(38) / inchesPerMetre, bytes.readInt32LE(42) / inchesPerMetre];
  const density = x > 0 && y > 0 ? { x: Math.round(x), y: Math.round(y), known: true } : undefined;
  return { width: bytes.readInt32LE(18), height: Math.abs(bytes.readInt32LE(22)), density };
}

/** BITMAPINFOHEADER: bits a dot at 28, compression at 30; 1 and 2 are run lengths, all others as they stand. */
function checkClaim(bytes: Buffer, { name, width, height }: { name: string; width: number; height: number }): void {
  const [bits, packing] = [bytes.readUInt16LE(28), bytes.readUInt32LE(30)];
  const packed = packing === 1 || packing === 2;
  // Two bytes say at most 255 dots.
  const least = packed ? (width * height) / 255 / 2 : (width * bits * height) / 8 / 2;
  if (bytes.length < least) throw damaged(name);
}

/**
 * Opens a BMP; sharp reads none.
 * @throws LotfileError `file refused`
 */
export function openBmp(path: string, name: string): OpenPictures {
  const bytes = readFileSync(path);
  const { width, height, density } = headOf(bytes, name);
  checkSize(name, width, height);
  checkClaim(bytes, { name, width, height });
  const { data } = withinTime(secondsLimit, () => decode(bytes, { toRGBA: true }));
  if (data.length !== width * height * 4) throw damaged(name);
  // The fourth byte is padding in nearly every BMP there is.
  for (let at = 3; at < data.length; at += 4) data[at] = 255;
  const upright = (): Sharp =>
    sharp(data, { raw: { width, height, channels: 4 }, limitInputPixels: false })
      .removeAlpha()
      .timeout({ seconds: secondsLimit });
  const sheet = async (): Promise<OpenSheet> => {
    const grey = data.every((value, at) => at % 4 === 3 || value === data[at - (at % 4)]);
    const { picture, way } = await dotsOf(upright, { pixels: width * height, grey });
    return { picture, way, orientation: 1, density, camera: false, notes: [], upright };
  };
  return { count: 1, notes: [], sheet };
}
