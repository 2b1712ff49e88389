import sharp from 'sharp';
import { withinTime } from '../within-time.ts';
import { labToRgb } from './lab.ts';
import { options, secondsLimit } from './limits.ts';
import { aloneDirectory } from './tiff-alone.ts';
import type { TiffPage } from './tiff-tags.ts';

/** Packings whose contents are plain bytes (TIFF 6.0: none, LZW, PackBits; deflate under both its numbers). */
const bytewise: ReadonlySet<number> = new Set([1, 5, 8, 32946, 32773]);

/** Bits a sample that the usual decoder takes. */
const usual: ReadonlySet<number> = new Set([1, 2, 4, 8, 16, 32, 64]);

/** Tag 262 of L*a*b* with signed a and b, and of the same as colour profiles write it (TIFF 6.0, section 23). */
const [lab, profileLab] = [8, 9];

/** Samples of 9 to 15 bits and their kin, and L*a*b*: sound, and the usual decoder leaves them be. */
export function isRareSamples({ bits, photometric, format }: TiffPage): boolean {
  if (format !== 1 && photometric !== lab) return false;
  if (bits === 0 || bits > 16) return false;
  if (photometric === lab) return bits === 8;
  return photometric === profileLab ? bits === 8 || bits === 16 : !usual.has(bits) && photometric <= 2;
}

function canUnpack({ compression, predictor, tiled, planes, height, rowsPerStrip }: TiffPage): boolean {
  const even = !planes || height % Math.min(rowsPerStrip, height) === 0;
  return bytewise.has(compression) && predictor === 1 && !tiled && even;
}

/**
 * Samples of any width, laid one after the other from the highest bit on; each row begins with a byte. Those of 16 bits
 * stand in the file's own order of bytes.
 */
class Bits {
  readonly #bytes: Buffer;
  readonly #width: number;
  readonly #little: boolean;

  constructor(bytes: Buffer, width: number, little: boolean) {
    this.#bytes = bytes;
    this.#width = width;
    this.#little = little && width === 16;
  }

  /** @returns the sample cut to 8 bits; where it has fewer, spread over them */
  at(row: number, index: number): number {
    const from = index * this.#width;
    const byte = row + (from >> 3);
    if (this.#little) return this.#bytes[byte + 1] ?? 0;
    const three = ((this.#bytes[byte] ?? 0) << 16) | ((this.#bytes[byte + 1] ?? 0) << 8) | (this.#bytes[byte + 2] ?? 0);
    const value = (three >> (24 - (from & 7) - this.#width)) & (2 ** this.#width - 1);
    return this.#width >= 8 ? value >> (this.#width - 8) : Math.round((value * 255) / (2 ** this.#width - 1));
  }
}

interface EightBits {
  readonly data: Buffer;
  readonly width: number;
  readonly height: number;
  readonly channels: 1 | 3;
}

interface Rows {
  readonly bytes: Buffer;
  readonly across: number;
  readonly little: boolean;
}

function unpacked({ bytes, across, little }: Rows, page: TiffPage): EightBits {
  const { width, height, bits, samples, photometric, planes } = page;
  const channels = samples >= 3 && photometric >= 2 ? 3 : 1;
  const data = Buffer.alloc(width * height * channels);
  const read = new Bits(bytes, bits, little);
  const step = planes ? 1 : samples;
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      for (let c = 0; c < channels; c += 1) {
        const row = (planes ? c * height + y : y) * across;
        const value = read.at(row, planes ? x : x * step + c);
        data[(y * width + x) * channels + c] = photometric === 0 ? 255 - value : value;
      }
    }
  }
  // L* alone runs nearly as the greys of a screen do.
  if (channels === 3 && (photometric === lab || photometric === profileLab)) labToRgb(data, photometric === lab);
  return { data, width, height, channels };
}

/** Unpacking goes dot by dot: larger pictures are refused rather than waited for. */
const mostSamples = 300_000_000;

/**
 * The dots of a TIFF whose samples the usual decoder does not take, with 8 bits each. That decoder still undoes the
 * packing: it is shown the same strips as rows of plain bytes.
 * @returns undefined where they are packed in a way that can't be shown so
 */
export async function rareSamples(bytes: Buffer, page: TiffPage): Promise<EightBits | undefined> {
  const { at, width, height, bits, samples, planes, rowsPerStrip } = page;
  if (!canUnpack(page) || width * height * samples > mostSamples) return undefined;
  const across = Math.ceil((width * bits * (planes ? 1 : samples)) / 8);
  const rows = planes ? height * samples : height;
  const asBytes = aloneDirectory(bytes, at, [
    [256, across],
    [257, rows],
    [258, 8],
    [262, 1],
    [274, 1],
    [277, 1],
    [278, Math.min(rowsPerStrip, height)],
    [284, 1],
    [338],
    [339],
  ]);
  const { data, info } = await sharp(asBytes, options)
    .timeout({ seconds: secondsLimit })
    .toColourspace('b-w')
    .raw()
    .toBuffer({ resolveWithObject: true });
  if (info.width !== across || info.height !== rows || info.channels !== 1) return undefined;
  const little = bytes.toString('latin1', 0, 2) === 'II';
  return withinTime(secondsLimit, () => unpacked({ bytes: data, across, little }, page));
}
