import { Temporal } from 'temporal-polyfill';
import { LotfileError } from './errors.ts';

/** A calendar date, ISO 8601 `YYYY-MM-DD` (RFC 3339 full-date). No time, no zone. */
export type Day = `${number}-${number}-${number}`;

/** A length of calendar time. Months and years are added before weeks and days, and clamp to the month's end. */
export interface Span {
  readonly years?: number | undefined;
  readonly months?: number | undefined;
  readonly weeks?: number | undefined;
  readonly days?: number | undefined;
  readonly workingDays?: number | undefined;
}

/** How long an office takes: at best `from`, at worst `to`. */
export interface Lead {
  readonly from: Span;
  readonly to: Span;
}

/** True for a real calendar date written `YYYY-MM-DD`. */
export function isDay(text: string): text is Day {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  try {
    Temporal.PlainDate.from(text, { overflow: 'reject' });
    return true;
  } catch {
    return false;
  }
}

/** Reads a date, or says in a sentence what is wrong with it. */
export function asDay(text: string, about = 'the date'): Day {
  if (isDay(text)) return text;
  throw new LotfileError('wrong use', `"${text}" is not a date.`, {
    about,
    next: 'Write it as year-month-day, for example 2026-03-02.',
  });
}

const firstDay: Day = '0000-01-01';
const lastDay: Day = '9999-12-31';

/** Moves a day; one that would leave the four-digit years stays at their end, so that no date can break a reading. */
function moved(start: Day, by: Temporal.DurationLike): Day {
  const date = Temporal.PlainDate.from(start);
  try {
    const to = date.add(by, { overflow: 'constrain' });
    if (to.year > 9999) return lastDay;
    return to.year < 0 ? firstDay : asDay(to.toString());
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return Object.values(by).some((part) => typeof part === 'number' && part > 0) ? lastDay : firstDay;
  }
}

/** Day + n days (n may be negative); never beyond the years 0 to 9999. */
export function addDays(start: Day, days: number): Day {
  return moved(start, { days });
}

/** Saturday and Sunday are no working days, nor is a day in `holidays`. */
export function isWorkingDay(date: Day, holidays: readonly Day[] = []): boolean {
  return Temporal.PlainDate.from(date).dayOfWeek < 6 && !holidays.includes(date);
}

/** Moves `count` working days on (back where negative); zero moves nowhere, even off a weekend. */
export function addWorkingDays(start: Day, count: number, holidays: readonly Day[] = []): Day {
  const step = count < 0 ? -1 : 1;
  let date = start;
  for (let left = Math.abs(count); left > 0; ) {
    const next = addDays(date, step);
    if (next === date) break;
    date = next;
    if (isWorkingDay(date, holidays)) left -= 1;
  }
  return date;
}

/**
 * Adds a span to a date: years and months first (clamped to the month's end, never carried on),
 * then weeks and days, then working days. Always add to the original date: adding is not associative.
 */
export function addSpan(start: Day, span: Span, holidays: readonly Day[] = []): Day {
  const { years = 0, months = 0, weeks = 0, days = 0, workingDays = 0 } = span;
  const day = moved(start, { years, months, weeks, days });
  return workingDays === 0 ? day : addWorkingDays(day, workingDays, holidays);
}

/** The span with every part turned round, for counting back. */
export function negated(span: Span): Span {
  return {
    years: -(span.years ?? 0),
    months: -(span.months ?? 0),
    weeks: -(span.weeks ?? 0),
    days: -(span.days ?? 0),
    workingDays: -(span.workingDays ?? 0),
  };
}

/** Days from `a` to `b`; negative where `b` is earlier. */
export function daysBetween(a: Day, b: Day): number {
  return Temporal.PlainDate.from(a).until(Temporal.PlainDate.from(b), { largestUnit: 'days' }).days;
}

/** ISO dates sort as text; this only names it. */
export function isBefore(a: Day, b: Day): boolean {
  return a < b;
}

export function earliest(a: Day, b: Day): Day {
  return a < b ? a : b;
}

export function latest(a: Day, b: Day): Day {
  return a > b ? a : b;
}

/** The last working day on or before `date`: the safe day where a date falls on a weekend. */
export function safeDay(date: Day, holidays: readonly Day[] = []): Day {
  let safe = date;
  while (safe > firstDay && !isWorkingDay(safe, holidays)) safe = addDays(safe, -1);
  return safe;
}

/** The first working day on or after `date`. */
export function nextOpenDay(date: Day, holidays: readonly Day[] = []): Day {
  let open = date;
  while (open < lastDay && !isWorkingDay(open, holidays)) open = addDays(open, 1);
  return open;
}

const monthNames = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const weekdayNames = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

/** "14 Mar 2026": day first and the month in letters, so that nobody can swap them. */
export function dayInWords(date: Day): string {
  const [year = '', month, day] = date.split('-');
  return `${Number(day)} ${monthNames[Number(month) - 1]} ${year}`;
}

/** "Sat 14 Mar 2026". */
export function dayWithWeekday(date: Day): string {
  return `${weekdayNames[Temporal.PlainDate.from(date).dayOfWeek - 1]} ${dayInWords(date)}`;
}

const spanUnits: Readonly<Record<string, keyof Span>> = {
  day: 'days',
  days: 'days',
  week: 'weeks',
  weeks: 'weeks',
  month: 'months',
  months: 'months',
  year: 'years',
  years: 'years',
};

/**
 * Reads "18 months", "90 days", "10 working days", "1 year 2 months".
 * @returns undefined where the words are no span.
 */
export function parseSpan(text: string): Span | undefined {
  const found: { -readonly [K in keyof Span]: Span[K] } = {};
  const rest = text.trim().replace(/(\d+)\s+(?:(working)\s+)?(days?|weeks?|months?|years?)\b/g, (...match) => {
    const [, count, working, unit] = match;
    const key = working === undefined ? spanUnits[String(unit)] : 'workingDays';
    if (key === undefined || (working !== undefined && !String(unit).startsWith('day'))) return '?';
    found[key] = (found[key] ?? 0) + Number(count);
    return '';
  });
  if (rest.replace(/[\s,]|and/g, '') !== '' || Object.keys(found).length === 0) return undefined;
  return found;
}

/** Reads "10 to 20 working days", "same day", "3 days" as a lead time. */
export function parseLead(text: string): Lead | undefined {
  const plain = text.trim();
  if (plain === 'same day') return { from: { days: 0 }, to: { days: 0 } };
  const range = /^(\d+) to (\d+) (.+)$/.exec(plain);
  if (range === null) {
    const span = parseSpan(plain);
    return span === undefined ? undefined : { from: span, to: span };
  }
  const from = parseSpan(`${range[1]} ${range[3]}`);
  const to = parseSpan(`${range[2]} ${range[3]}`);
  return from === undefined || to === undefined || Number(range[1]) > Number(range[2]) ? undefined : { from, to };
}

/** "18 months", "1 year 2 months", "10 working days": the inverse of {@link parseSpan}. */
export function spanInWords(span: Span): string {
  const parts: [number | undefined, string][] = [
    [span.years, 'year'],
    [span.months, 'month'],
    [span.weeks, 'week'],
    [span.days, 'day'],
    [span.workingDays, 'working day'],
  ];
  const words = parts.flatMap(([count, unit]) =>
    count === undefined || count === 0 ? [] : [`${count} ${unit}${count === 1 ? '' : 's'}`],
  );
  return words.length === 0 ? 'same day' : words.join(' ');
}

/** "10 to 20 working days", "3 weeks", "same day": the inverse of {@link parseLead}. */
export function leadInWords({ from, to }: Lead): string {
  const [low, high] = [spanInWords(from), spanInWords(to)];
  if (low === high) return low;
  const [count] = low.split(' ');
  return `${low === 'same day' ? '0' : count} to ${high}`;
}
