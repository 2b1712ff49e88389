import { dayInWords, type RequestAnswer } from '../../desk/door.ts';
import { counted, sizeInWords, table, wrapped } from './lines.ts';

/** A paper the program wrote: what it is called, and what to know before it goes out. */
export function writtenText({ title, name, pages, bytes, notes }: RequestAnswer<'write-paper'>): string {
  return [
    `${title}: ${name}, ${counted(pages, 'page')}, ${sizeInWords(bytes)}`,
    ...notes.flatMap((note) => wrapped(note, 2)),
    'It goes away when the lot is closed: with --out FOLDER you get a copy.',
  ].join('\n');
}

const changeWords = { new: 'new', moved: 'moved', reworded: 'reworded', gone: 'no more' } as const;

/** What the calendar file holds, and what is different from the last one. */
export function calendarText({ name, events, before, changes }: RequestAnswer<'calendar'>): string {
  const since = before === undefined ? 'The first file:' : `Since the file of ${dayInWords(before)}:`;
  const rows = changes.map(({ sort, title, day, was }) => [
    `  ${changeWords[sort]}`,
    was === undefined ? dayInWords(day) : `${dayInWords(was)} -> ${dayInWords(day)}`,
    title,
  ]);
  return [
    `${name}: ${counted(events, 'date')}. With --out FOLDER you get a copy; open it with your calendar.`,
    ...(rows.length === 0 ? [`${since} nothing changed.`] : [since, ...table(rows)]),
  ].join('\n');
}
