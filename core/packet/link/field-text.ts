import type { SourceCopy } from './source-copy.ts';
import { isArray, nameOf, numberOf, type PdfDict, type PdfValue } from './syntax/values.ts';

/**
 * Widths of Helvetica for the codes 32 to 126, in thousandths (Adobe's Core 14 font metrics, Helvetica.afm; the table
 * is written from memory and only decides where centred and automatic text stands).
 */
const helvetica = [
  278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556,
  556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833,
  722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556,
  556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334,
  260, 334, 584,
] as const;

/** Signs that WinAnsiEncoding keeps between 128 and 159 (ISO 32000-1, annex D.2). */
const windowsSigns: ReadonlyMap<string, number> = new Map(
  ['€', '', '‚', 'ƒ', '„', '…', '†', '‡', 'ˆ', '‰', 'Š', '‹', 'Œ', '', 'Ž', '', '', '‘', '’', '“', '”', '•', '–', '—']
    .concat(['˜', '™', 'š', '›', 'œ', '', 'ž', 'Ÿ'])
    .map((sign, i) => [sign, 128 + i]),
);

/** A font a field is set in: how text becomes codes, and how wide it is. */
export interface FieldFont {
  /** One character per byte, or undefined when the font has no place for some sign. */
  encode(text: string): string | undefined;
  /** Width of encoded text at size 1. */
  width(codes: string): number;
}

/** Reads a simple font; undefined for fonts that need more than one byte per sign. */
export function fieldFont(source: SourceCopy, font: PdfDict | undefined): FieldFont | undefined {
  if (nameOf(source.file.resolve(font?.get('Subtype'))) === 'Type0') return undefined;
  const widths = source.file.resolve(font?.get('Widths'));
  const first = numberOf(source.file.resolve(font?.get('FirstChar'))) ?? 0;
  const fixed = /courier|mono/i.test(nameOf(source.file.resolve(font?.get('BaseFont'))) ?? '');
  const one = (code: number): number => {
    const own = isArray(widths) ? numberOf(source.file.resolve(widths[code - first])) : undefined;
    return own ?? (fixed ? 600 : (helvetica[code - 32] ?? 556));
  };
  return {
    encode: encodeText,
    width: (codes) => Array.from(codes, (code) => one(code.charCodeAt(0))).reduce((sum, w) => sum + w, 0) / 1000,
  };
}

function encodeText(text: string): string | undefined {
  let codes = '';
  for (const sign of text.normalize('NFC')) {
    const code = sign.codePointAt(0) ?? 0;
    const plain = (code >= 32 && code < 127) || (code >= 160 && code < 256);
    const here = plain ? code : windowsSigns.get(sign);
    if (here === undefined) return undefined;
    codes += String.fromCharCode(here);
  }
  return codes;
}

/** "/Helv 12 Tf 0 g" taken apart; size 0 means as large as fits. */
export function defaultAppearance(text: string): {
  readonly font: string;
  readonly size: number;
  readonly ink: string;
} {
  const found = /\/([^\s()<>[\]{}/%]+)\s+(-?[\d.]+)\s+Tf/.exec(text);
  const ink = /((?:[\d.]+\s+){1,4}(?:g|rg|k))(?=\s|$)/.exec(text)?.[1] ?? '0 g';
  return { font: found?.[1] ?? 'Helv', size: Math.abs(Number(found?.[2] ?? 0)) || 0, ink };
}

/** Colour operands of a /MK entry (grey, RGB or CMYK) with their operator; undefined for none. */
export function colourOf(source: SourceCopy, value: PdfValue | undefined, stroke: boolean): string | undefined {
  const parts = source.file.resolve(value);
  if (!isArray(parts)) return undefined;
  const operator = { 1: 'g', 3: 'rg', 4: 'k' }[parts.length];
  if (operator === undefined) return undefined;
  const numbers = parts.map((part) => numberOf(source.file.resolve(part)) ?? 0);
  return `${numbers.join(' ')} ${stroke ? operator.toUpperCase() : operator}`;
}
