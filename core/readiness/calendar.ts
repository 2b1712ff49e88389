import { asDay, type Day, type Span } from '../vocabulary/days.ts';

/**
 * Whole-number date arithmetic. The way adds hundreds of spans for one screen, and the general date
 * library costs some twenty microseconds each; tests hold this file to it day by day.
 */
export interface Calendar {
  /** Day numbers (days since 1970-01-01) on which offices are shut. */
  readonly holidays: ReadonlySet<number>;
}

const days = new Map<number, Day>();

function two(value: number): string {
  return String(value).padStart(2, '0');
}

/** Days since 1970-01-01 in the proleptic Gregorian calendar; a March-based year keeps the leap day last. */
function numberOf(year: number, month: number, day: number): number {
  const shifted = month <= 2 ? year - 1 : year;
  const era = Math.floor(shifted / 400);
  const yearOfEra = shifted - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  return era * 146097 + yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear - 719468;
}

function partsOf(day: Day): readonly [number, number, number] {
  return [Number(day.slice(0, 4)), Number(day.slice(5, 7)), Number(day.slice(8, 10))];
}

/** The number of a date: days since 1970-01-01. */
export function toNumber(day: Day): number {
  return numberOf(...partsOf(day));
}

/** The date of a day number. */
export function toDay(number: number): Day {
  const known = days.get(number);
  if (known !== undefined) return known;
  const shifted = number + 719468;
  const era = Math.floor(shifted / 146097);
  const dayOfEra = shifted - era * 146097;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36524) - Math.floor(dayOfEra / 146096)) / 365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const shiftedMonth = Math.floor((5 * dayOfYear + 2) / 153);
  const month = shiftedMonth + (shiftedMonth < 10 ? 3 : -9);
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0);
  const day = dayOfYear - Math.floor((153 * shiftedMonth + 2) / 5) + 1;
  const made = asDay(`${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`);
  days.set(number, made);
  return made;
}

const monthLengths = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

function monthLength(year: number, month: number): number {
  const leap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  return month === 2 && leap ? 29 : (monthLengths[month - 1] ?? 31);
}

export function calendarOf(holidays: readonly Day[]): Calendar {
  return { holidays: new Set(holidays.map(toNumber)) };
}

function isOpen(number: number, calendar: Calendar): boolean {
  const weekday = (((number + 3) % 7) + 7) % 7;
  return weekday < 5 && !calendar.holidays.has(number);
}

function walk(start: number, count: number, calendar: Calendar): number {
  const step = count < 0 ? -1 : 1;
  let at = start;
  for (let left = Math.abs(count); left > 0; ) {
    at += step;
    if (isOpen(at, calendar)) left -= 1;
  }
  return at;
}

/** True where offices are open: a weekday and no holiday. */
export function isOpenDay(day: Day, calendar: Calendar): boolean {
  return isOpen(toNumber(day), calendar);
}

/** Years and months first, clamped to the month's end; then weeks and days; then working days. */
export function plusSpan(start: Day, span: Span, calendar: Calendar): Day {
  const [year, month, day] = partsOf(start);
  const months = year * 12 + (month - 1) + (span.years ?? 0) * 12 + (span.months ?? 0);
  const newYear = Math.floor(months / 12);
  const newMonth = months - newYear * 12 + 1;
  const clamped = numberOf(newYear, newMonth, Math.min(day, monthLength(newYear, newMonth)));
  const moved = clamped + (span.weeks ?? 0) * 7 + (span.days ?? 0);
  return toDay(span.workingDays === undefined ? moved : walk(moved, span.workingDays, calendar));
}

/** Days from `a` to `b`; negative where `b` is earlier. */
export function daysFrom(a: Day, b: Day): number {
  return toNumber(b) - toNumber(a);
}

export function plusDays(start: Day, count: number): Day {
  return toDay(toNumber(start) + count);
}

/** The first open day on or after. */
export function openFrom(day: Day, calendar: Calendar): Day {
  let at = toNumber(day);
  while (!isOpen(at, calendar)) at += 1;
  return toDay(at);
}

/** The last open day on or before. */
export function openUntil(day: Day, calendar: Calendar): Day {
  let at = toNumber(day);
  while (!isOpen(at, calendar)) at -= 1;
  return toDay(at);
}

/** The span taken `count` times over, for the n-th extension counted from the original end. */
export function times(span: Span, count: number): Span {
  return {
    years: (span.years ?? 0) * count,
    months: (span.months ?? 0) * count,
    weeks: (span.weeks ?? 0) * count,
    days: (span.days ?? 0) * count,
    workingDays: (span.workingDays ?? 0) * count,
  };
}
