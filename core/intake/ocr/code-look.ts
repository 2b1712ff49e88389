import sharp from 'sharp';
import { sheetShade } from './leaders.ts';
import type { LetterReader, SeenWord } from './letter-reader.ts';
import type { GreyPicture } from './page-picture.ts';

/** Height to which every word is brought: where capitals and figures are told apart best, by trial. */
const tall = 48;
/** Paper left around a word, in parts of its height. */
const margin = 0.25;
/** White around the sheet, and between its rows. */
const edge = 40;
const rowGap = 24;
/** More than any one sheet of a permit, policy or deed has. */
const mostCodes = 60;

/** What is written in figures and is no number of a paper. */
const plainFigures = [
  /^\d{1,2}([/.-])\d{1,2}\1(?:\d{2}|\d{4})$/, // a date: 3/14/26, 14.03.2026
  /^\d{4}-\d\d-\d\d$/,
  /^(?:19|20)\d\d$/, // a year
  /^\d+\.\d\d$/, // an amount
  /^\d+(?:st|nd|rd|th)$/i,
  /^\d[\d./-]*x\d[\d./-]*(?:x\d[\d./-]*)?$/i, // a dimension: 2x10, 24x36
];

/** A number that may mix letters and figures: no date, amount, percentage, dimension or telephone number. */
function isCode(text: string): boolean {
  const plain = text.replace(/^\W+|\W+$/g, '');
  if (plain.length < 4 || /^[$(]|[%]$/.test(text)) return false;
  return /\d/.test(plain) && /^[\w./–-]+$/.test(plain) && !plainFigures.some((figures) => figures.test(plain));
}

/** Capitals before figures may be the first half of a number: "CBC 937591". */
function leadsCode(word: SeenWord, next: SeenWord | undefined): boolean {
  if (next === undefined || !/^\W?[A-Z]{1,4}-?$/.test(word.text) || !/\d{3}/.test(next.text)) return false;
  const height = word.bottom - word.top;
  return next.left - word.right < 1.2 * height && Math.abs(next.top - word.top) < height / 2;
}

interface Crop {
  readonly word: number;
  readonly pixels: Buffer;
  readonly width: number;
  readonly height: number;
  readonly y: number;
}

/** The word alone, brought to the height at which it is read. */
async function cropOf(picture: GreyPicture, word: SeenWord): Promise<Pick<Crop, 'pixels' | 'width' | 'height'>> {
  const pad = Math.round((word.bottom - word.top) * margin) + 3;
  const left = Math.max(0, word.left - pad);
  const top = Math.max(0, word.top - pad);
  const width = Math.min(picture.width, word.right + pad) - left;
  const height = Math.min(picture.height, word.bottom + pad) - top;
  const scale = Math.min(4, tall / Math.max(8, word.bottom - word.top));
  const { data, info } = await sharp(picture.pixels, {
    raw: { width: picture.width, height: picture.height, channels: 1 },
  })
    .extract({ left, top, width, height })
    .resize(Math.round(width * scale), Math.round(height * scale), { kernel: 'cubic' })
    .blur(0.5)
    .toColourspace('b-w')
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { pixels: data, width: info.width, height: info.height };
}

/** A row for each word: of several in one row the reader makes one where it takes the room between them for a slip. */
function layOut(found: readonly Omit<Crop, 'y'>[]): readonly Crop[] {
  let y = edge;
  return found.map((crop) => {
    const placed = { ...crop, y };
    y += crop.height + rowGap;
    return placed;
  });
}

function sheetOf(crops: readonly Crop[], shade: number): GreyPicture {
  const width = Math.max(...crops.map((crop) => crop.width)) + 2 * edge;
  const height = Math.max(...crops.map((crop) => crop.y + crop.height)) + edge;
  const pixels = new Uint8Array(width * height).fill(shade);
  for (const crop of crops) {
    for (let line = 0; line < crop.height; line += 1) {
      const from = line * crop.width;
      pixels.set(crop.pixels.subarray(from, from + crop.width), (crop.y + line) * width + edge);
    }
  }
  return { width, height, pixels };
}

/** What a look for capitals and figures alone made of a word. */
interface CodeSeen {
  readonly text: string;
  /** 0 to 1, as of any word. */
  readonly certainty: number;
}

/**
 * Looks once more at every word that may be a number of letters and figures, large, and only for capitals and figures:
 * where small letters can't be meant, "Zv-0075" and "C0O-26" read right.
 * @returns what was read there, by the word's place in `words`
 */
export async function codeLook(
  reader: LetterReader,
  picture: GreyPicture,
  words: readonly SeenWord[],
): Promise<ReadonlyMap<number, CodeSeen>> {
  const codes = words
    .flatMap((word, n) => (isCode(word.text) || leadsCode(word, words[n + 1]) ? [n] : []))
    .slice(0, mostCodes);
  const found: Omit<Crop, 'y'>[] = [];
  for (const word of codes) {
    const seen = words[word];
    if (seen !== undefined) found.push({ word, ...(await cropOf(picture, seen)) });
  }
  const crops = layOut(found);
  if (crops.length === 0) return new Map();
  const again = new Map<number, CodeSeen>();
  for (const seen of await reader.read(sheetOf(crops, sheetShade(picture)), 300, 'codes')) {
    const y = (seen.top + seen.bottom) / 2;
    const crop = crops.find((c) => y >= c.y && y <= c.y + c.height);
    if (crop === undefined) continue;
    const before = again.get(crop.word);
    again.set(crop.word, {
      text: `${before?.text ?? ''}${seen.text}`,
      certainty: Math.min(before?.certainty ?? 1, seen.certainty),
    });
  }
  return again;
}
