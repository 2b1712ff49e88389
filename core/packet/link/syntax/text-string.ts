import { hexValue } from './characters.ts';
import { PdfString, type PdfValue } from './values.ts';

/** A text string for people (titles, labels): ASCII where it can be, else UTF-16BE (ISO 32000-1, 7.9.2.2). */
export function textString(text: string): PdfString {
  const clean = text.normalize('NFC');
  if (/^[\x20-\x7e]*$/.test(clean)) return new PdfString(`(${clean.replace(/[\\()]/g, '\\$&')})`);
  let hex = 'feff';
  for (let i = 0; i < clean.length; i += 1) hex += clean.charCodeAt(i).toString(16).padStart(4, '0');
  return new PdfString(`<${hex}>`);
}

/** The bytes of a string, one character each, whichever way it was written (ISO 32000-1, 7.3.4). */
export function stringBytes(value: PdfString): string {
  return value.raw.startsWith('<') ? hexBytes(value.raw) : literalBytes(value.raw);
}

/** A string holding exactly these bytes (one character each). */
export function byteString(bytes: string): PdfString {
  let hex = '';
  for (let i = 0; i < bytes.length; i += 1) hex += (bytes.charCodeAt(i) & 255).toString(16).padStart(2, '0');
  return new PdfString(`<${hex}>`);
}

/** A text string as people read it; PDFDocEncoding is taken as Latin 1, which differs only in rare signs. */
export function textOf(value: PdfValue | undefined): string | undefined {
  if (!(value instanceof PdfString)) return undefined;
  const bytes = stringBytes(value);
  const raw = Buffer.from(bytes, 'latin1');
  if (bytes.startsWith('\xfe\xff'))
    return raw
      .subarray(2, raw.length & ~1)
      .swap16()
      .toString('utf16le');
  if (bytes.startsWith('\xef\xbb\xbf')) return raw.subarray(3).toString('utf8');
  return bytes;
}

function hexBytes(raw: string): string {
  let out = '';
  let high = -1;
  for (let i = 1; i < raw.length - 1; i += 1) {
    const digit = hexValue(raw.charCodeAt(i));
    if (digit < 0) continue;
    if (high < 0) high = digit;
    else {
      out += String.fromCharCode(high * 16 + digit);
      high = -1;
    }
  }
  return high < 0 ? out : out + String.fromCharCode(high * 16);
}

const escapes: Readonly<Record<string, string>> = { n: '\n', r: '\r', t: '\t', b: '\b', f: '\f' };

function literalBytes(raw: string): string {
  return raw.slice(1, -1).replace(/\\([0-7]{1,3}|\r\n|[\s\S])|\r\n?/g, (whole: string, after: string | undefined) => {
    if (after === undefined) return '\n';
    if (/^[0-7]/.test(after)) return String.fromCharCode(Number.parseInt(after, 8) & 255);
    if (after === '\r\n' || after === '\r' || after === '\n') return '';
    return escapes[after] ?? whole.slice(1);
  });
}
