import type { RecordRow } from '../../../core/desk/contract/answers.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';

export const sieves = ['all', 'photo', 'receipt', 'serial number', 'note'] as const;
export type Sieve = (typeof sieves)[number];
export const orders = ['by day', 'by place', 'by trade'] as const;
export type Order = (typeof orders)[number];

export interface Wanted {
  readonly sieve: Sieve;
  readonly order: Order;
  readonly trade: string;
  readonly place: string;
  readonly words: string;
}

export type RecordLine =
  | {
      readonly of: 'heading';
      readonly id: string;
      readonly title: string;
      readonly count: number;
      readonly cents: number;
    }
  | { readonly of: 'record'; readonly id: string; readonly record: RecordRow };

function plain(text: string): string {
  return text.normalize('NFD').replace(/\p{M}/gu, '').toLocaleLowerCase('en');
}

function passes(row: RecordRow, { sieve, trade, place, words }: Wanted): boolean {
  if (sieve !== 'all' && row.sort !== sieve) return false;
  if ((trade !== '' && row.trade !== trade) || (place !== '' && row.place !== place)) return false;
  const typed = plain(words.trim());
  if (typed === '') return true;
  return plain([row.title, row.place, row.wall, row.trade, row.text, row.file].join(' ')).includes(typed);
}

function headingOf(row: RecordRow, order: Order): string {
  switch (order) {
    case 'by day':
      return dayInWords(row.day);
    case 'by place':
      return row.place === '' ? 'No place said' : row.place;
    case 'by trade':
      return row.trade === '' ? 'No trade said' : row.trade;
  }
}

/** What was asked for, newest first; by place or trade these stand in the order of the alphabet, unsaid ones last. */
export function linesOf(records: readonly RecordRow[], wanted: Wanted): readonly RecordLine[] {
  const through = records.filter((row) => passes(row, wanted)).toReversed();
  const groups = [...Map.groupBy(through, (row) => headingOf(row, wanted.order))];
  const unsaid = (title: string): number => (/^No (place|trade) said$/.test(title) ? 1 : 0);
  const ordered =
    wanted.order === 'by day'
      ? groups
      : groups.toSorted(([a], [b]) => unsaid(a) - unsaid(b) || a.localeCompare(b, 'en', { numeric: true }));
  return ordered.flatMap(([title, rows]): readonly RecordLine[] => [
    {
      of: 'heading',
      id: `# ${title}`,
      title,
      count: rows.length,
      cents: rows.reduce((sum, { amount = 0 }) => sum + amount, 0),
    },
    ...rows.map((record): RecordLine => ({ of: 'record', id: record.record, record })),
  ]);
}

/** Every value said so far, for the lists to choose from. */
export function saidSoFar(records: readonly RecordRow[], field: 'trade' | 'place' | 'wall'): readonly string[] {
  const said = new Set(records.map((row) => row[field]).filter((value) => value !== ''));
  return [...said].toSorted((a, b) => a.localeCompare(b, 'en', { numeric: true }));
}
