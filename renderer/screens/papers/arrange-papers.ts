import type { PaperRow } from '../../../core/desk/contract/answers.ts';
import type { Day } from '../../../core/vocabulary/days.ts';
import { officeSorts } from '../../../core/vocabulary/practice.ts';
import { beginsOf } from '../../kit/begins.ts';
import type { Arrangement, Sieve } from './drawer-state.ts';

/** One divider of the drawer and the cards behind it. */
export interface Divider {
  readonly id: string;
  readonly title: string;
  /** Where its tab stands, 0 at the left: by the sort of office, as on a packet's dividers. */
  readonly tab: number;
  readonly cards: readonly PaperRow[];
}

/** What one line of the drawer holds: a divider's tab, or as many cards as stand side by side. */
export type DrawerLine =
  | { readonly of: 'tab'; readonly id: string; readonly divider: Divider }
  | { readonly of: 'cards'; readonly id: string; readonly cards: readonly PaperRow[] };

const months = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

/** Kept or asked for, but nothing of it that counts is there. */
export function stillToGet({ paper, state }: PaperRow): boolean {
  return state === 'awaited' || state === 'not asked for' || (paper === undefined && state !== "doesn't apply");
}

export function passes(row: PaperRow, sieve: Sieve): boolean {
  switch (sieve) {
    case 'all':
      return true;
    case 'in hand':
      return row.state === 'in hand' || row.state === 'lapsing';
    case 'lapsing or lapsed':
      return (row.state === 'lapsing' || row.state === 'lapsed') && !row.spent;
    case 'still to get':
      return stillToGet(row);
  }
}

function gather(rows: readonly PaperRow[], of: (row: PaperRow) => Omit<Divider, 'cards'>): readonly Divider[] {
  const dividers = new Map<string, Divider & { cards: PaperRow[] }>();
  for (const row of rows) {
    const { id, title, tab } = of(row);
    const divider = dividers.get(id) ?? { id, title, tab, cards: [] };
    divider.cards.push(row);
    dividers.set(id, divider);
  }
  return [...dividers.values()];
}

function byOffice(rows: readonly PaperRow[]): readonly Divider[] {
  const dividers = gather(rows, ({ from, office, sort }) => ({
    id: from,
    title: office === '' ? 'No office noted' : office,
    tab: officeSorts.indexOf(sort),
  }));
  return dividers.toSorted((a, b) => a.tab - b.tab || a.title.localeCompare(b.title, 'en'));
}

function monthOf(day: Day): string {
  return `${months[Number(day.slice(5, 7)) - 1]} ${day.slice(0, 4)}`;
}

function byDate(rows: readonly PaperRow[]): readonly Divider[] {
  const dated = rows
    .filter((row) => beginsOf(row) !== undefined)
    .toSorted((a, b) => (beginsOf(b) ?? '').localeCompare(beginsOf(a) ?? ''));
  const months = gather(dated, (row) => {
    const day = beginsOf(row) ?? '1970-01-01';
    return { id: day.slice(0, 7), title: monthOf(day), tab: Number(day.slice(5, 7)) - 1 };
  });
  const undated = rows.filter((row) => beginsOf(row) === undefined && row.paper !== undefined);
  const absent = rows.filter((row) => beginsOf(row) === undefined && row.paper === undefined);
  return [
    ...months,
    ...gather(undated, () => ({ id: 'undated', title: 'No date noted', tab: 0 })),
    ...gather(absent, () => ({ id: 'absent', title: 'Not here yet', tab: 0 })),
  ];
}

export function arrange(rows: readonly PaperRow[], arrangement: Arrangement): readonly Divider[] {
  return arrangement === 'by office' ? byOffice(rows) : byDate(rows);
}

/** The drawer line by line, `side` cards beside each other. */
export function linesOf(dividers: readonly Divider[], side: number): readonly DrawerLine[] {
  return dividers.flatMap((divider): readonly DrawerLine[] => {
    const lines: DrawerLine[] = [{ of: 'tab', id: `tab ${divider.id}`, divider }];
    for (let at = 0; at < divider.cards.length; at += side) {
      const cards = divider.cards.slice(at, at + side);
      lines.push({ of: 'cards', id: `cards ${cards[0]?.row}`, cards });
    }
    return lines;
  });
}
