import { type Day, isDay } from '../../vocabulary/days.ts';
import { folded, near } from './folded.ts';
import type { TextWord } from './page-text.ts';

/** A date found in a run of words. */
export interface FoundDate {
  readonly day: Day;
  /** The other day it could be, where day and month can be swapped. */
  readonly otherwise: readonly Day[];
  /** Words `from` up to `to` of the run. */
  readonly from: number;
  readonly to: number;
  /** Letters had to be taken for figures to read it. */
  readonly mended: boolean;
  /** It is written in figures, month first: proves nothing, unless its second number is over 12. */
  readonly order: 'month first' | 'day first' | 'either' | 'told in letters';
  /** The year stands there with two figures. */
  readonly shortYear: boolean;
}

const monthNames = [
  'january',
  'february',
  'march',
  'april',
  'may',
  'june',
  'july',
  'august',
  'september',
  'october',
  'november',
  'december',
];

/** The month a word names, its short form included; 0 where it names none. */
export function monthOf(word: string): number {
  const read = folded(word);
  if (read.length < 3) return 0;
  const whole = monthNames.findIndex((name) => near(read, folded(name)));
  if (whole >= 0) return whole + 1;
  const short =
    read === 'sept' || read === 'sep' ? 8 : monthNames.findIndex((name) => folded(name.slice(0, 3)) === read);
  return short + 1;
}

/** Figures as a scan shows them: what stands among figures and looks like one is one. */
function figures(text: string): string {
  return text
    .replace(/[OoQD]/g, '0')
    .replace(/[lI|!i]/g, '1')
    .replace(/[Ss]/g, '5')
    .replace(/B/g, '8')
    .replace(/[Zz]/g, '2');
}

/**
 * A year of two figures falls between 79 years before and 20 years after today: papers lie back further than they look
 * ahead. Common practice (RFC-less; POSIX strptime splits at a fixed 69, which would age).
 */
export function fullYear(year: number, today: Day): number {
  const now = Number(today.slice(0, 4));
  const near = now - (now % 100) + year;
  if (near > now + 20) return near - 100;
  return near < now - 79 ? near + 100 : near;
}

function dayOf(year: number, month: number, day: number): Day | undefined {
  const text = `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
  return isDay(text) && year > 1850 && year < 2150 ? text : undefined;
}

interface Read extends Omit<FoundDate, 'from' | 'to'> {
  /** Letters of the joined text it took. */
  readonly length: number;
}

const fig = '[0-9OoQDlI|!iSsBZz]';
const numeric = new RegExp(
  `^(${fig}{1,4})\\s?([/\\-.\\u2013])\\s?(${fig}{1,2})\\s?\\2\\s?(${fig}{4}|${fig}{2})(?![0-9A-Za-z/\\-])`,
);

function readNumeric(text: string, today: Day): Read | undefined {
  const match = numeric.exec(text);
  if (match === null) return undefined;
  const raw = [match[1] ?? '', match[3] ?? '', match[4] ?? ''];
  const [first = '', second = '', third = ''] = raw.map(figures);
  const mended = raw.some((part) => /[^0-9]/.test(part));
  // Figures must prevail, or a word between strokes becomes a date.
  if (raw.join('').replace(/\D/g, '').length < 3) return undefined;
  const { length } = match[0];
  if (first.length === 4) {
    const day = dayOf(Number(first), Number(second), Number(third));
    return day === undefined || third.length !== 2
      ? undefined
      : { day, otherwise: [], mended, order: 'told in letters', shortYear: false, length };
  }
  if (first.length > 2) return undefined;
  const shortYear = third.length === 2;
  const year = shortYear ? fullYear(Number(third), today) : Number(third);
  const monthFirst = dayOf(year, Number(first), Number(second));
  const dayFirst = dayOf(year, Number(second), Number(first));
  const day = monthFirst ?? dayFirst;
  if (day === undefined) return undefined;
  if (monthFirst === undefined) return { day, otherwise: [], mended, order: 'day first', shortYear, length };
  const swapped = dayFirst === undefined || dayFirst === monthFirst ? [] : [dayFirst];
  const order = dayFirst === undefined ? 'month first' : 'either';
  return { day, otherwise: swapped, mended, order, shortYear, length };
}

// Something stands between day and year: "April 2027" is not the twentieth.
const monthDay = new RegExp(
  `^([A-Za-z0-9|]{3,10})\\.?\\s?(${fig}{1,2})(?:st|nd|rd|th)?(?:\\s?[,.]\\s?|\\s)(${fig}{4}|'?${fig}{2})(?![0-9A-Za-z])`,
);
const dayMonth = new RegExp(
  `^(${fig}{1,2})(?:st|nd|rd|th)?[\\s-]?(?:day\\s)?(?:of\\s)?([A-Za-z0-9|]{3,10}?)\\.?[\\s,-]{1,2}(${fig}{4}|'?${fig}{2})(?![0-9A-Za-z])`,
);

function readWritten(text: string, today: Day): Read | undefined {
  const first = monthDay.exec(text);
  const match = first ?? dayMonth.exec(text);
  if (match === null) return undefined;
  const [name = '', number = ''] = first === null ? [match[2], match[1]] : [match[1], match[2]];
  const month = monthOf(name);
  const rawYear = (match[3] ?? '').replace("'", '');
  const mended = /\D/.test(number) || /\D/.test(rawYear);
  const shortYear = rawYear.length === 2;
  if (month === 0 || !/\d/.test(number + rawYear)) return undefined;
  const said = Number(figures(rawYear));
  const day = dayOf(shortYear ? fullYear(said, today) : said, month, Number(figures(number)));
  return day === undefined
    ? undefined
    : { day, otherwise: [], mended, order: 'told in letters', shortYear, length: match[0].length };
}

/**
 * The dates in a run of words, in order: 03/04/2026, 3-4-26, March 4, 2026, 4 MAR 26, 4th day of March, 2026,
 * 2026-03-04. In figures the month is taken first, as US offices write; the other reading is told beside it.
 * @param today for years of two figures
 */
export function findDates(words: readonly TextWord[], today: Day): readonly FoundDate[] {
  const found: FoundDate[] = [];
  for (let from = 0; from < words.length; from += 1) {
    const text = words
      .slice(from, from + 6)
      .map((word) => word.text)
      .join(' ')
      .replace(/^[("'[]+/, '');
    const skipped = (words[from]?.text ?? '').length - (words[from]?.text ?? '').replace(/^[("'[]+/, '').length;
    const read = readNumeric(text, today) ?? readWritten(text, today);
    if (read === undefined) continue;
    const { length, ...date } = read;
    let to = from;
    for (let letters = -skipped; letters < length && to < words.length; to += 1)
      letters += (words[to]?.text.length ?? 0) + 1;
    found.push({ ...date, from, to });
    from = to - 1;
  }
  return found;
}
