import type { Face, FontMetrics } from './drawing.ts';

/** What stands on the sheet for a character that no face has. */
export const replacement = '□';

/** Text of one face after the other, and the characters that had to be replaced. */
export interface FacedText {
  readonly runs: readonly { readonly face: Face; readonly text: string }[];
  readonly replaced: readonly string[];
}

const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' });

/** Splits into what a person sees as one character. */
export function charactersOf(text: string): readonly string[] {
  return Array.from(graphemes.segment(text), (part) => part.segment);
}

/**
 * Makes text fit for setting: NFC (one code point per letter wherever Unicode has one), no control,
 * direction or zero-width characters, every other space a plain one. Line breaks stay as "\n".
 */
export function plainText(text: string): string {
  return isPlain(text) ? text : oddText(text);
}

/** Most text is: no more has to be looked at then. */
export function isPlain(text: string): boolean {
  return /^[\x20-\x7e]*$/.test(text);
}

function oddText(text: string): string {
  return text
    .normalize('NFC')
    .replace(/\r\n?|[\u2028\u2029]/g, '\n')
    .replace(/[\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff\u00ad]/g, '')
    .replace(/[\u00a0\u2000-\u200a\u202f\u205f\u3000]/g, ' ')
    .replace(/[^\P{Cc}\n]/gu, ' ');
}

/** A face's stand-in where it lacks a letter: the text faces know most scripts. */
const standIns: Readonly<Record<Face, readonly Face[]>> = {
  text: ['text', 'mono'],
  bold: ['bold', 'text', 'mono'],
  slab: ['slab', 'bold', 'text', 'mono'],
  mono: ['mono', 'text'],
};

/** Gives each character the first face that has it; none has it: a visible square, and it is told. */
export function facedText(text: string, face: Face, metrics: FontMetrics): FacedText {
  const lacking = metrics.missing(text, face);
  if (lacking.length === 0) return { runs: text === '' ? [] : [{ face, text }], replaced: [] };
  const runs: { face: Face; text: string }[] = [];
  const replaced = new Set<string>();
  for (const character of charactersOf(text)) {
    const home = standIns[face].find((other) => metrics.missing(character, other).length === 0);
    if (home === undefined) replaced.add(character);
    const piece = home === undefined ? replacement : character;
    const last = runs.at(-1);
    if (last !== undefined && last.face === (home ?? face)) last.text += piece;
    else runs.push({ face: home ?? face, text: piece });
  }
  return { runs, replaced: [...replaced] };
}

/** Width in points of text with its stand-ins. */
export function widthOf(
  text: string,
  style: { readonly face: Face; readonly size: number },
  metrics: FontMetrics,
): number {
  let width = 0;
  for (const run of facedText(text, style.face, metrics).runs) width += metrics.widthOf(run.text, run.face, style.size);
  return width;
}
