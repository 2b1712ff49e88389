import type { PDFFont } from 'pdf-lib';

/** Ligatures and contextual forms stay off: the measured width of a line is the sum of its letters. */
export const features = { liga: false, clig: false, calt: false, dlig: false, kern: false };

/**
 * Letters that stand for themselves: with the features above no glyph of theirs depends on its neighbours, so each is
 * looked up once. Any other text, marks above all, is shaped as a whole.
 */
const plain = /^[\u0020-\u007e\u00a0-\u00ac\u00ae-\u017f\u2013\u2014\u2018\u2019\u201c\u201d\u2022\u2026]*$/;

/** Text to the hex codes of a face's glyphs, as the font itself lays it out. */
export function encoderOf(font: PDFFont): (text: string) => string {
  const codes = new Map<string, string>();
  const codeOf = (character: string): string => {
    const known = codes.get(character);
    if (known !== undefined) return known;
    const made = font.encodeText(character).asString();
    codes.set(character, made);
    return made;
  };
  return (text) => {
    if (!plain.test(text)) return font.encodeText(text).asString();
    let hex = '';
    for (const character of text) hex += codeOf(character);
    return hex;
  };
}
