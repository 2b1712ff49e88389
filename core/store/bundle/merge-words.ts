import type { Database } from 'better-sqlite3';
import type { TrackedTable } from '../changes.ts';
import type { MergeStep } from './merge-compare.ts';
import { rowWords } from './merge-keys.ts';
import type { Cell, Plain, SideRow } from './merge-side.ts';

/** "3 visits", "1 paper": what came over, main things first, the rest together. */
export function takenWords(steps: readonly MergeStep[]): readonly string[] {
  const byTable = Map.groupBy(steps, ({ table }) => table);
  let rest = 0;
  const words = [...byTable].flatMap(([table, all]) => {
    const [one, many, counted] = rowWords[table];
    if (counted) return [table === 'lot' ? one : `${all.length} ${all.length === 1 ? one : many}`];
    rest += all.length;
    return [];
  });
  if (rest === 0) return words;
  return [...words, `${rest} ${rest === 1 ? 'row' : 'rows'} that belong to them or to papers here`];
}

const columnWords: Readonly<Record<string, string>> = {
  good_through: 'good through',
  physical_only: 'on paper only',
  not_applicable: 'does not apply because',
  since: 'from',
  till: 'to',
  answered: 'answered on',
  withdrawn_day: 'withdrawn on',
  withdrawn_reason: 'withdrawn because',
  from_contingency: 'from the contingency',
  paid_amount: 'paid',
};

function cellWords(value: Cell | undefined): string {
  return value === null || value === undefined || value === '' ? 'nothing' : String(value);
}

/** Only what differs; a row that is gone says so. */
function sideWords(row: SideRow | undefined, other: SideRow | undefined, db: Database): string {
  if (row === undefined) return 'taken away';
  const differing = Object.entries(row.plain).filter(([column, value]) => other?.plain[column] !== value);
  const shown = other === undefined ? differing.filter(([, value]) => value !== null) : differing;
  return shown
    .map(([column, value]) => {
      const word = columnWords[column] ?? column.replaceAll('_', ' ');
      return `${word}: ${column === 'practice' ? practiceTitle(db, value) : cellWords(value)}`;
    })
    .join('; ');
}

function practiceTitle(db: Database, sha: Cell): string {
  const title = db.prepare<[Cell], string>('SELECT title FROM practice WHERE sha = ?').pluck().get(sha);
  return `${title ?? 'another one'} (${String(sha).slice(0, 8)})`;
}

function titleOfEdition(db: Database, id: Cell | undefined): string {
  const row = db
    .prepare<[Cell], { title: string; number: string | null }>(
      'SELECT title, number FROM edition JOIN paper ON paper.id = edition.paper WHERE edition.id = ?',
    )
    .get(id ?? null);
  return row === undefined ? '' : `${row.title}${row.number === null ? '' : ` ${row.number}`}`;
}

const nameColumns: Partial<Readonly<Record<TrackedTable, readonly string[]>>> = {
  lot_fact: ['question'],
  event: ['event', 'day'],
  visit: ['errand', 'day'],
  handover: ['recipient', 'day'],
  office_word: ['said'],
  identity: ['text'],
};

function nameOf(table: TrackedTable, plain: Plain, db: Database): string {
  const edition = titleOfEdition(db, table === 'edition' ? plain.id : plain.edition);
  const columns = nameColumns[table] ?? ['title', 'number', 'fact', 'mark', 'office', 'place'];
  const own = columns.flatMap((column) => {
    const value = plain[column];
    return value === undefined || value === null || (table === 'edition' && column === 'number') ? [] : [String(value)];
  });
  return [edition, ...own].filter((part) => part !== '').join(', ');
}

/** A row changed on both sides, as a person can compare it. */
export function conflictWords(
  step: MergeStep,
  sides: { readonly mine: Database; readonly theirs: Database },
): { readonly key: string; readonly what: string; readonly mine: string; readonly theirs: string } {
  const { table, key, mine, theirs } = step;
  const [one] = rowWords[table];
  const name =
    mine === undefined ? nameOf(table, theirs?.plain ?? {}, sides.theirs) : nameOf(table, mine.plain, sides.mine);
  return {
    key,
    what: `${one.slice(0, 1).toUpperCase()}${one.slice(1)}${name === '' ? '' : `: ${name}`}`,
    mine: sideWords(mine, theirs, sides.mine),
    theirs: sideWords(theirs, mine, sides.theirs),
  };
}
