import { characterSort } from './characters.ts';
import { FinishedRef, isDict, PdfName, PdfRef, PdfString, type PdfValue, PdfVerbatim } from './values.ts';

/** The finished file's number for a reference of the source; 0 where nothing may be dragged along. */
export type MapRef = (ref: PdfRef) => number;

/** For values that are our own: they hold no reference of a source. */
export const ownValue: MapRef = () => 0;

/** Writes a value as PDF text, one character per byte. References are renumbered on the way; gone ones become null. */
export function serialise(value: PdfValue, mapRef: MapRef): string {
  if (typeof value === 'number') return numberText(value);
  if (value === null) return 'null';
  if (typeof value === 'boolean') return value ? 'true' : 'false';
  if (value instanceof PdfName) return nameText(value.name);
  if (value instanceof PdfRef) {
    const num = mapRef(value);
    return num === 0 ? 'null' : `${num} 0 R`;
  }
  if (value instanceof FinishedRef) return `${value.num} 0 R`;
  if (value instanceof PdfString || value instanceof PdfVerbatim) return value.raw;
  if (isDict(value)) {
    let text = '<<';
    for (const [key, entry] of value) text += `${nameText(key)} ${serialise(entry, mapRef)}\n`;
    return `${text}>>`;
  }
  let text = '[';
  for (const item of value) text += `${serialise(item, mapRef)} `;
  return `${text}]`;
}

const written = new Map<string, string>();

/** Names repeat by the thousand, so their written form is remembered (up to a bound). */
export function nameText(text: string): string {
  const known = written.get(text);
  if (known !== undefined) return known;
  let out = '/';
  for (const letter of text) {
    const code = letter.charCodeAt(0);
    const plain = code > 32 && code < 127 && letter !== '#' && characterSort[code] === 0;
    out += plain ? letter : `#${(code & 255).toString(16).padStart(2, '0')}`;
  }
  if (written.size < 20_000) written.set(text, out);
  return out;
}

/** PDF knows no exponents; six decimals are finer than any device. */
export function numberText(value: number): string {
  if (Number.isInteger(value)) return Math.abs(value) < 1e15 ? String(value) : BigInt(value).toString();
  const short = String(value);
  if (!short.includes('e')) return short;
  return value.toFixed(10).replace(/\.?0+$/, '');
}
