import { addDays, type Day, latest } from '../vocabulary/days.ts';
import type { CalendarDate, DateChange, SentCalendar, SentDate } from './calendar-model.ts';

/** A date that was struck out goes along so long, for calendars that read the file seldom. */
const tellGoneFor = 90;

function sameDate(a: CalendarDate, b: CalendarDate): boolean {
  const shown = ({ day, title, words, place, alarms }: CalendarDate): string =>
    JSON.stringify([day, title, words, place ?? '', alarms]);
  return shown(a) === shown(b);
}

function sentNow(date: CalendarDate, before: SentDate | undefined, today: Day): SentDate {
  const { key, day, title, words, place, alarms } = date;
  const plain = { key, day, title, words, place, alarms };
  if (before === undefined) return { ...plain, sequence: 0, modified: today, cancelled: false };
  if (sameDate(date, before) && !before.cancelled) return before;
  return { ...plain, sequence: before.sequence + 1, modified: today, cancelled: false };
}

/** What went out before and stands no more; what is simply past is left to the calendar. */
function struckOut(before: SentDate, today: Day): readonly SentDate[] {
  if (before.day < today) return [];
  if (before.cancelled) return addDays(before.modified, tellGoneFor) < today ? [] : [before];
  return [{ ...before, sequence: before.sequence + 1, modified: today, cancelled: true }];
}

function changeOf(now: SentDate, before: SentDate | undefined): DateChange | undefined {
  const { title, day } = now;
  if (before === undefined || (before.cancelled && !now.cancelled)) return { sort: 'new', title, day };
  if (now.cancelled) return before.cancelled ? undefined : { sort: 'gone', title, day };
  if (before.day !== day) return { sort: 'moved', title, day, was: before.day };
  return before === now ? undefined : { sort: 'reworded', title, day };
}

/**
 * The dates of today laid against those of the last file: what changed, and each with the sequence that makes a
 * calendar change its event. By day, then by key, so that the same dates give the same file.
 */
export function sendDates(
  dates: readonly CalendarDate[],
  last: SentCalendar | undefined,
  today: Day,
): { readonly calendar: SentCalendar; readonly changes: readonly DateChange[] } {
  const before = new Map((last?.dates ?? []).map((date) => [date.key, date]));
  const here = new Set(dates.map(({ key }) => key));
  const now = [
    ...dates.map((date) => sentNow(date, before.get(date.key), today)),
    ...[...before.values()].filter(({ key }) => !here.has(key)).flatMap((date) => struckOut(date, today)),
  ].toSorted((a, b) => (a.day === b.day ? (a.key < b.key ? -1 : 1) : a.day < b.day ? -1 : 1));
  const changes = now.flatMap((date) => changeOf(date, before.get(date.key)) ?? []);
  return { calendar: { day: today, dates: now }, changes };
}

/** Two memories of one lot, from two computers: of each date the one that was sent more often. */
export function joinSent(a: SentCalendar | undefined, b: SentCalendar | undefined): SentCalendar | undefined {
  if (a === undefined || b === undefined) return a ?? b;
  const dates = new Map(a.dates.map((date) => [date.key, date]));
  for (const date of b.dates) {
    const mine = dates.get(date.key);
    if (mine === undefined || mine.sequence < date.sequence) dates.set(date.key, date);
  }
  return { day: latest(a.day, b.day), dates: [...dates.values()] };
}
