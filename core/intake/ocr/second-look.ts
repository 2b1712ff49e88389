import sharp from 'sharp';
import { sheetShade } from './leaders.ts';
import type { LetterReader, SeenWord } from './letter-reader.ts';
import type { GreyPicture } from './page-picture.ts';

/** A figure misread is the most dear mistake a scan can make: words with figures in them are read twice. */
const hasFigure = /\d/;

/** Words are laid out afresh this much larger, softened a little: another grid of pixels under the same ink. */
const enlarge = 1.35;

interface Spot {
  readonly word: number;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** Where it stands on the new sheet, before enlarging. */
  x: number;
  y: number;
}

const sheetWidth = 1100;

/** Sets the spots into rows on a new sheet, with room around each. */
function layOut(spots: readonly Spot[]): { readonly width: number; readonly height: number } {
  let x = 20;
  let y = 20;
  let tallest = 0;
  for (const spot of spots) {
    if (x > 20 && x + spot.width > sheetWidth) {
      x = 20;
      y += tallest + 14;
      tallest = 0;
    }
    spot.x = x;
    spot.y = y;
    x += spot.width + 45;
    tallest = Math.max(tallest, spot.height);
  }
  const width = Math.max(sheetWidth, ...spots.map((spot) => spot.width)) + 40;
  return { width, height: y + tallest + 20 };
}

function spotOf(picture: GreyPicture, word: SeenWord, index: number): Spot {
  const pad = Math.round((word.bottom - word.top) * 0.25) + 2;
  const left = Math.max(0, word.left - pad);
  const top = Math.max(0, word.top - pad);
  const width = Math.min(picture.width, word.right + pad) - left;
  const height = Math.min(picture.height, word.bottom + pad) - top;
  return { word: index, left, top, width, height, x: 0, y: 0 };
}

function newSheet(picture: GreyPicture, spots: readonly Spot[]): GreyPicture {
  const { width, height } = layOut(spots);
  const pixels = new Uint8Array(width * height).fill(sheetShade(picture));
  for (const spot of spots) {
    for (let row = 0; row < spot.height; row += 1) {
      const from = (spot.top + row) * picture.width + spot.left;
      pixels.set(picture.pixels.subarray(from, from + spot.width), (spot.y + row) * width + spot.x);
    }
  }
  return { width, height, pixels };
}

/**
 * Looks a second time at every word that holds a figure, one word at a time and without its neighbours.
 * @returns what was read there, by the word's place in `words`
 */
export async function secondLook(
  reader: LetterReader,
  picture: GreyPicture,
  words: readonly SeenWord[],
): Promise<ReadonlyMap<number, string>> {
  const spots = words.flatMap((word, index) => (hasFigure.test(word.text) ? [spotOf(picture, word, index)] : []));
  if (spots.length === 0) return new Map();
  const sheet = newSheet(picture, spots);
  const { data, info } = await sharp(sheet.pixels, { raw: { width: sheet.width, height: sheet.height, channels: 1 } })
    .resize(Math.round(sheet.width * enlarge), Math.round(sheet.height * enlarge), { kernel: 'cubic' })
    .blur(0.6)
    .toColourspace('b-w')
    .raw()
    .toBuffer({ resolveWithObject: true });
  const found = await reader.read({ width: info.width, height: info.height, pixels: data }, 300, 'rows');
  const again = new Map<number, string>();
  for (const seen of found) {
    const x = (seen.left + seen.right) / 2 / enlarge;
    const y = (seen.top + seen.bottom) / 2 / enlarge;
    const spot = spots.find((s) => x >= s.x - 12 && x <= s.x + s.width + 12 && y >= s.y - 6 && y <= s.y + s.height + 6);
    if (spot !== undefined) again.set(spot.word, `${again.get(spot.word) ?? ''}${seen.text}`);
  }
  return again;
}
