import type { FactSort, FactValue } from '../../vocabulary/facts.ts';
import { parseMoney } from '../../vocabulary/money.ts';
import type { TextWord } from './page-text.ts';

/** A value read at the start of a run: what, and how many words it took from which on. */
export interface ReadValue<T> {
  readonly value: T;
  readonly from: number;
  readonly to: number;
  /** What stood there before letters that were taken for figures were put right. */
  readonly asRead?: T | undefined;
}

const trimmed = (text: string) => text.replace(/^[("'[:]+|[)"'\],;:]+$/g, '').replace(/\.$/, '');

/** Words that end with a full stop and end no sentence. */
const shortened =
  /^(?:[A-Z]|Inc|Co|Corp|Ltd|LLC|St|Ave|Rd|Dr|Ln|Ct|Blvd|Hwy|Rt|Jr|Sr|No|Mr|Mrs|Ms|Apt|Ste|N|S|E|W)\.$/i;

/** Words up to the end of the sentence. */
function upToStop(words: readonly TextWord[]): readonly TextWord[] {
  const end = words.findIndex((word) => /[.;]$/.test(word.text) && !shortened.test(word.text));
  return end < 0 ? words : words.slice(0, end + 1);
}

function textOf(words: readonly TextWord[]): string {
  const joined = words
    .map((word) => word.text)
    .join(' ')
    .replace(/\s+([,.;])/g, '$1');
  const end = words.at(-1)?.text ?? '';
  return shortened.test(end) && !/^[A-Z]\.$/.test(end) && /^(?:Inc|Co|Corp|Ltd)\.$/i.test(end)
    ? joined.trim()
    : joined.trim().replace(/[,;:.]+$/, '');
}

const date = /^(?:\d{1,2}[/-]\d{1,2}[/-](?:\d{2}|\d{4})|\d{4}-\d\d-\d\d)$/;
const money = /^\$/;
const phone = /^\(?\d{3}\)?$/;

/** A permit, policy, licence or file number. */
export function readNumber(words: readonly TextWord[]): ReadValue<string> | undefined {
  const [first, second] = words.map((word) => trimmed(word.text));
  if (first === undefined || money.test(first) || date.test(first)) return undefined;
  const figures = first.replace(/\D/g, '').length;
  const joins =
    second !== undefined &&
    /^\d[\d-]{2,}$/.test(second) &&
    !date.test(second) &&
    (/^[A-Z]{1,4}-?$/.test(first) || /^\d{2,4}$/.test(first));
  if (phone.test(first) && second !== undefined && /^\d{3}-\d{4}$/.test(second)) return undefined;
  if (joins) return { value: `${first} ${second}`, from: 0, to: 2 };
  if (figures < 2 || first.length < 3 || !/^[A-Za-z0-9][\w./–-]*$/.test(first)) return undefined;
  return { value: first, from: 0, to: 1 };
}

const parcelPart = /^(?:[A-Z]{1,2}\d*|[A-Z]?\d[\dA-Z]*(?:[.\-/–][\dA-Z]+)*)$/;

/** "055-12-0031   4.02": a number with strokes is whole by itself, and what follows in decimals is the next column. */
function isMeasure(text: string, before: readonly string[], after: string | undefined): boolean {
  if (!/^\d{1,4}\.\d{1,3}$/.test(text)) return false;
  return before.some((part) => /\d-\d/.test(part)) || /^(?:acres?|ac)\b/i.test(after ?? '');
}

/** A parcel number: groups of figures, with points, strokes, or spaces between. */
export function readParcel(words: readonly TextWord[]): ReadValue<string> | undefined {
  const parts: string[] = [];
  for (const [at, word] of words.slice(0, 6).entries()) {
    const text = trimmed(word.text);
    if (!parcelPart.test(text) || date.test(text)) break;
    if (parts.length > 0 && isMeasure(text, parts, words[at + 1]?.text)) break;
    parts.push(text);
    if (/[.;,]$/.test(word.text)) break;
  }
  const value = parts.join(' ');
  return value.replace(/\D/g, '').length < 4 ? undefined : { value, from: 0, to: parts.length };
}

export const streetSort =
  /^(?:lane|ln|road|rd|drive|dr|street|st|avenue|ave|court|ct|way|trail|trl|circle|cir|place|pl|highway|hwy|boulevard|blvd|loop|run|pike|parkway|pkwy|terrace|ter|route|rte|path|cove|ridge|hollow|bend|crossing|point)[.,]?$/i;

/** An address: a house number and a road, or a lot and what it is part of. */
export function readAddress(given: readonly TextWord[]): ReadValue<string> | undefined {
  const stop = given.findIndex((word, at) => at > 1 && /^(?:\(|parcel\b|lot\b|apn\b|pin\b|tax\b)/i.test(word.text));
  const words = upToStop(stop < 0 ? given : given.slice(0, stop)).slice(0, 10);
  const [first, second] = words.map((word) => word.text);
  const house =
    first !== undefined &&
    /^\d{1,6}[A-Z]?(?:-\d+)?,?$/.test(first) &&
    second !== undefined &&
    /[A-Za-z]{2}|^[NSEW]\.?$/.test(second);
  const lot = first !== undefined && /^lot$/i.test(first) && second !== undefined && /^\d+/.test(second);
  if (!house && !lot) return undefined;
  if (house && !words.some((word) => streetSort.test(word.text)) && words.length > 6) return undefined;
  const own = upToRoad(words);
  return { value: textOf(own), from: 0, to: own.length };
}

/** "3440 Long Acre Rd. Air changes is 4.70": what "is" belongs to is another label, and the road was the end. */
function upToRoad(words: readonly TextWord[]): readonly TextWord[] {
  const is = words.findIndex((word) => /^(?:is|are)$/i.test(word.text));
  const road = words.slice(0, Math.max(0, is)).findLastIndex((word) => streetSort.test(word.text));
  return road < 0 ? words : words.slice(0, road + 1);
}

/** In a narrow table the next column's figures touch the name: "Brennick4547". */
const runInto = /^(\p{L}[\p{L}'’-]+)(?:\$|\d{2,}).*$/u;

/** Between two names a scan's "§" or "8" is the sign for "and". */
function ampersand(word: TextWord, at: number, all: readonly TextWord[]): TextWord {
  const between = /^\p{Lu}/u.test(all[at - 1]?.text ?? '') && /^\p{Lu}/u.test(all[at + 1]?.text ?? '');
  return between && /^[§8]$/.test(word.text) ? { ...word, text: '&' } : word;
}

/** A person's or firm's name: words with capitals, figures only inside a firm's. */
export function readName(given: readonly TextWord[]): ReadValue<string> | undefined {
  const seen = upToStop(given).slice(0, 12).map(ampersand);
  const touching = seen.findIndex((word) => runInto.test(word.text));
  const words = (touching < 0 ? seen : seen.slice(0, touching + 1)).map((word) => ({
    ...word,
    text: word.text.replace(runInto, '$1'),
  }));
  const joining = /^(?:and|&|of|the|de|la|van|von|et|ux\.?|a|trustee|trust)$/i;
  let to = 0;
  for (const word of words) {
    if (!/^[("']?\p{Lu}/u.test(word.text) && !joining.test(word.text)) break;
    to += 1;
  }
  while (to > 0 && /^(?:and|&|of|the|a)$/i.test(words[to - 1]?.text ?? '')) to -= 1;
  const value = textOf(words.slice(0, to));
  return value.replace(/[^\p{L}]/gu, '').length < 3 ? undefined : { value, from: 0, to };
}

const plainNumber = /^[<>~±]?(-?(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?|\.\d+)(.*)$/;

const unitOf: Partial<Readonly<Record<FactSort, RegExp>>> = {
  length: /^(?:ft|feet|foot|'|$)/i,
  area: /^(?:sq|square|sf|ft2|ft²|s\.f|$)/i,
  volume: /^(?:cu|cubic|cf|ft3|ft³|$)/i,
  flow: /^(?:cfm|$)/i,
  percent: /^(?:%|percent|pct|$)/i,
};

function readAmount(words: readonly TextWord[], sort: FactSort): ReadValue<number> | undefined {
  const raw = words[0]?.text ?? '';
  const first = trimmed(raw);
  // What stands in brackets after a label explains it.
  const match = raw.startsWith('(') ? null : plainNumber.exec(first);
  const number = match?.[1];
  if (number === undefined) return undefined;
  const tail = match?.[2] ?? '';
  const unit = tail === '' ? trimmed(words[1]?.text ?? '') : tail;
  const expected = unitOf[sort];
  if (tail !== '' && (expected === undefined || !expected.test(tail))) return undefined;
  const value = Number(number.replaceAll(',', ''));
  if (sort === 'count' && (!Number.isInteger(value) || value > 999_999 || /^\d+[./-]/.test(first))) return undefined;
  const to = expected?.test(unit) === true && tail === '' && words.length > 1 && unit !== '' ? 2 : 1;
  return { value, from: 0, to };
}

function readMoney(words: readonly TextWord[]): ReadValue<number> | undefined {
  const [first = '', second = ''] = words.map((word) => trimmed(word.text));
  const [text, to] = first === '$' ? [`$${second}`, 2] : [first, 1];
  const value = parseMoney(/^\$/.test(text) ? text : `${text} usd`);
  return value === undefined ? undefined : { value, from: 0, to };
}

const elevation = /^(-?\d+(?:\.\d+)?)\s*(?:ft\.?|feet|')?\s*,?\s*\(?((?:NAVD|NGVD)\s*-?\s*(?:19)?(?:88|29))?/i;

/** The vertical datum as named by the agency that keeps them (National Geodetic Survey): NAVD 88, NGVD 29. */
function datumOf(text: string): string | undefined {
  const match = /\b(NAVD|NGVD)\s*-?\s*(?:of\s+)?(?:19)?(88|29)/i.exec(text);
  return match === null ? undefined : `${match[1]?.toUpperCase()} ${match[2]}`;
}

/** @param pageText where the datum may be named once for all elevations */
function readElevation(
  words: readonly TextWord[],
  pageText: string,
): ReadValue<{ feet: number; datum: string }> | undefined {
  const text = words
    .slice(0, 5)
    .map((word) => word.text)
    .join(' ');
  const match = elevation.exec(text);
  if (match?.[1] === undefined) return undefined;
  const own = datumOf(match[2] ?? '');
  const named = new Set(
    [...pageText.matchAll(/\b(?:NAVD|NGVD)\s*-?\s*(?:of\s+)?(?:19)?(?:88|29)/gi)].map((found) => datumOf(found[0])),
  );
  const datum = own ?? (named.size === 1 ? [...named][0] : undefined);
  if (datum === undefined) return undefined;
  let to = 0;
  for (let letters = 0; letters < match[0].trim().length && to < words.length; to += 1)
    letters += (words[to]?.text.length ?? 0) + 1;
  return { value: { feet: Number(match[1]), datum }, from: 0, to };
}

function readYesNo(words: readonly TextWord[]): ReadValue<boolean> | undefined {
  const text = trimmed(words[0]?.text ?? '');
  if (/^(?:yes|y)$/i.test(text)) return { value: true, from: 0, to: 1 };
  return /^(?:no|n)$/i.test(text) ? { value: false, from: 0, to: 1 } : undefined;
}

function readWords(given: readonly TextWord[]): ReadValue<string> | undefined {
  const words = upToStop(given).slice(0, 6);
  const value = textOf(words);
  return value === '' ? undefined : { value, from: 0, to: words.length };
}

function wrapped<T>(read: ReadValue<T> | undefined, make: (value: T) => FactValue): ReadValue<FactValue> | undefined {
  return read === undefined ? undefined : { value: make(read.value), from: read.from, to: read.to };
}

/**
 * Reads a fact of any sort but a day at the start of a run.
 * @param pageText the page's text, for a datum named once
 */
export function readValue(
  sort: Exclude<FactSort, 'day'>,
  words: readonly TextWord[],
  pageText: string,
): ReadValue<FactValue> | undefined {
  switch (sort) {
    case 'address':
      return wrapped(readAddress(words), (value) => ({ sort, value }));
    case 'parcel number':
      return wrapped(readParcel(words), (value) => ({ sort, value }));
    case 'name':
      return wrapped(readName(words), (value) => ({ sort, value }));
    case 'text':
    case 'choice':
    case 'revision':
      return wrapped(readWords(words), (value) => ({ sort, value }));
    case 'count':
    case 'number':
    case 'length':
    case 'area':
    case 'volume':
    case 'flow':
    case 'percent':
      return wrapped(readAmount(words, sort), (value) => ({ sort, value }));
    case 'money':
      return wrapped(readMoney(words), (value) => ({ sort, value }));
    case 'elevation':
      return wrapped(readElevation(words, pageText), (value) => ({ sort, value }));
    case 'yes or no':
      return wrapped(readYesNo(words), (value) => ({ sort, value }));
  }
}
