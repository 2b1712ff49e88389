import type { SentCalendar, SentDate } from './calendar-model.ts';
import { alarmTrigger, dateValue, escaped, folded, stampValue } from './ics-text.ts';

export interface CalendarTitle {
  /** The lot's own key, the same on every computer that holds it. */
  readonly lot: string;
  readonly title: string;
}

function alarmLines(date: SentDate): readonly string[] {
  return [...date.alarms]
    .toSorted((a, b) => b - a)
    .flatMap((days) => [
      'BEGIN:VALARM',
      'ACTION:DISPLAY',
      `DESCRIPTION:${escaped(date.title)}`,
      `TRIGGER:${alarmTrigger(days)}`,
      'END:VALARM',
    ]);
}

function eventLines(date: SentDate, calendar: SentCalendar, { lot }: CalendarTitle): readonly string[] {
  return [
    'BEGIN:VEVENT',
    `UID:${date.key.replaceAll('/', '.')}@${lot}.lotfile.invalid`,
    `DTSTAMP:${stampValue(calendar.day)}`,
    `DTSTART;VALUE=DATE:${dateValue(date.day)}`,
    `SUMMARY:${escaped(date.title)}`,
    ...(date.words.length === 0 ? [] : [`DESCRIPTION:${escaped(date.words.join('\n'))}`]),
    ...(date.place === undefined ? [] : [`LOCATION:${escaped(date.place)}`]),
    `SEQUENCE:${date.sequence}`,
    `LAST-MODIFIED:${stampValue(date.modified)}`,
    `STATUS:${date.cancelled ? 'CANCELLED' : 'CONFIRMED'}`,
    'TRANSP:TRANSPARENT',
    ...(date.cancelled ? [] : alarmLines(date)),
    'END:VEVENT',
  ];
}

/**
 * The file of a calendar: RFC 5545, with a name by RFC 7986. Whole days without an end last one day (3.6.1).
 * A calendar that read an earlier file changes its events by their UID and SEQUENCE instead of doubling them.
 */
export function writeCalendar(calendar: SentCalendar, title: CalendarTitle): string {
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Lotfile//Dates of a lot//EN',
    'CALSCALE:GREGORIAN',
    'METHOD:PUBLISH',
    `NAME:${escaped(title.title)}`,
    ...calendar.dates.flatMap((date) => eventLines(date, calendar, title)),
    'END:VCALENDAR',
  ];
  return `${lines.map(folded).join('\r\n')}\r\n`;
}
