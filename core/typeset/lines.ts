import type { Face, FontMetrics } from './drawing.ts';
import { charactersOf, plainText, widthOf } from './plain-text.ts';

export interface LineStyle {
  readonly face: Face;
  readonly size: number;
}

/** Where a long word may end without a hyphen: after these, the break is seen as one. */
const softEnds = /(?<=[-/_.,:;@+])(?=.)/u;

/** Cuts a word that is wider than the line: after a joint if one fits, else between two characters. */
function cutWord(word: string, width: number, fits: (text: string) => boolean): readonly string[] {
  const pieces: string[] = [];
  let line = '';
  for (const joint of word.split(softEnds)) {
    if (line !== '' && fits(line + joint)) line += joint;
    else if (fits(joint)) {
      if (line !== '') pieces.push(line);
      line = joint;
    } else {
      for (const character of charactersOf(joint)) {
        if (line === '' || fits(line + character)) line += character;
        else {
          pieces.push(line);
          line = character;
        }
      }
    }
  }
  if (line !== '') pieces.push(line);
  return width > 0 ? pieces : [word];
}

/**
 * Breaks text into lines no wider than `width` points, without hyphens. Only a single character
 * wider than the line may stand out. Empty text gives no line.
 */
export function linesOf(
  text: string,
  style: LineStyle,
  box: { readonly width: number; readonly metrics: FontMetrics },
): readonly string[] {
  const fits = (line: string): boolean => widthOf(line, style, box.metrics) <= box.width + 0.01;
  const lines: string[] = [];
  for (const paragraph of plainText(text).split('\n')) {
    let line = '';
    for (const word of paragraph.split(' ').filter((part) => part !== '')) {
      const longer = line === '' ? word : `${line} ${word}`;
      if (fits(longer)) line = longer;
      else {
        const pieces = fits(word) ? [word] : cutWord(word, box.width, fits);
        if (line !== '') lines.push(line);
        lines.push(...pieces.slice(0, -1));
        line = pieces.at(-1) ?? '';
      }
    }
    if (line !== '') lines.push(line);
  }
  return lines;
}

/** The first `most` lines; where more were needed the last one ends in "…". */
export function linesAtMost(
  lines: readonly string[],
  most: number,
  fit: { readonly style: LineStyle; readonly width: number; readonly metrics: FontMetrics },
): readonly string[] {
  if (lines.length <= most) return lines;
  const kept = lines.slice(0, most);
  let last = [...charactersOf(kept.at(-1) ?? '')];
  while (last.length > 0 && widthOf(`${last.join('')}…`, fit.style, fit.metrics) > fit.width) last = last.slice(0, -1);
  return [...kept.slice(0, -1), `${last.join('').trimEnd()}…`];
}
