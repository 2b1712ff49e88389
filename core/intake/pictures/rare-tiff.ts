import type { LotfileError } from '../../vocabulary/errors.ts';
import { otherSort } from './limits.ts';
import { sensorGrids, type TiffPage } from './tiff-tags.ts';

/**
 * Packings that decoders here take (TIFF 6.0; 7 is its JPEG supplement, 8 and 32946 deflate, 50001 WebP). Of any other
 * one the usual decoder makes black dots without a word.
 */
const packings: ReadonlySet<number> = new Set([1, 2, 3, 4, 5, 6, 7, 8, 32773, 32946, 50001]);

/** Beyond this a decoder cuts values off instead of scaling them, and shows something else. */
const mostBits = 16;

export function cameraRaw(name: string): LotfileError {
  return otherSort(name, 'is what a camera’s sensor saw, not a picture yet (RAW).');
}

/** What a decoder would take and show as something else: refused before it is asked. Undefined for every other one. */
export function beyondReach(
  name: string,
  { bits, format, photometric, compression }: TiffPage,
): LotfileError | undefined {
  if (sensorGrids.has(photometric)) return cameraRaw(name);
  if (!packings.has(compression))
    return otherSort(name, `is a TIFF packed in a way that no reader here takes (packing ${compression}).`);
  if (bits > mostBits) return otherSort(name, `tells its colours in ${bits} bits each, as no scanner does.`);
  if (bits === 0) return otherSort(name, 'tells each of its colours in another number of bits, as no scanner does.');
  // TIFF 6.0, section 19; 4 says that nobody knows, and means whole numbers.
  if (format === 3) return otherSort(name, 'tells its colours in fractions, as no scanner does.');
  return format === 2 && photometric !== 8
    ? otherSort(name, 'tells its colours in numbers below zero too, as no scanner does.')
    : undefined;
}

/** Tag 262, TIFF 6.0: grey, RGB, palette, printing colours, YCbCr, L*a*b*. */
const colours: ReadonlySet<number> = new Set([0, 1, 2, 3, 5, 6, 8]);
const usualBits: ReadonlySet<number> = new Set([1, 2, 4, 8, 16]);

/** Why no decoder took a picture that need not be damaged; undefined where nothing about it is rare. */
export function rareTiff(name: string, { bits, photometric, compression }: TiffPage): LotfileError | undefined {
  // Section 22 of TIFF 6.0, withdrawn by its Technical Note 2: every program wrote it in its own way.
  if (compression === 6)
    return otherSort(name, 'is a TIFF with a JPEG inside in an old way that hardly any program reads.');
  if (!usualBits.has(bits))
    return otherSort(name, `is a TIFF of ${bits} bits a colour, laid out in a way that no reader here takes.`);
  return colours.has(photometric)
    ? undefined
    : otherSort(name, `is a TIFF whose colours are told in a way that no reader here takes (${photometric}).`);
}
