import { dayInWords, dayWithWeekday, type RequestAnswer } from '../../desk/door.ts';
import { counted, labelled } from './lines.ts';

type Lapses = RequestAnswer<'lapses'>;
type Row = Lapses['rows'][number];

function when({ through, days, askBy }: Row): string {
  if (days < 0) return `lapsed after ${dayWithWeekday(through)}, ${counted(-days, 'day')} ago`;
  const left = days === 0 ? 'today is its last good day' : `in ${counted(days, 'day')}`;
  const ask = askBy === undefined ? '' : `; ask for more time by ${dayWithWeekday(askBy)}`;
  return `good through ${dayWithWeekday(through)}, ${left}${ask}`;
}

/** What lapses within the days asked about, by what has to be done first. */
export function lapsesText({ day, within, until, rows }: Lapses): string {
  const span = `within ${counted(within, 'day')} of ${dayInWords(day)}, through ${dayInWords(until)}`;
  if (rows.length === 0) return `Nothing that is still needed lapses ${span}.`;
  return [
    `${rows.some(({ days }) => days < 0) ? 'What has lapsed and is still needed, and what' : 'What'} lapses ${span}:`,
    ...rows.flatMap((row) => [
      '',
      `${row.title}${row.number === '' ? '' : ` ${row.number}`}`,
      ...labelled('    ', when(row), 0),
      ...labelled('    Why:', row.why, 0),
      ...labelled('    What to do:', row.remedy, 0),
    ]),
  ].join('\n');
}
