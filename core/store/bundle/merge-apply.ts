import type { Database } from 'better-sqlite3';
import { type TrackedTable, trackedTables } from '../changes.ts';
import type { MergeStep } from './merge-compare.ts';
import type { Cell, Plain } from './merge-side.ts';

/** What a packet's folder is called here, by the packet's id. */
export type PacketFolders = ReadonlyMap<string, string>;

interface Applying {
  readonly db: Database;
  readonly folders: PacketFolders;
  /** Key of a comment -> its place here. */
  commentSeq(key: string): number | undefined;
}

function cellsFor(table: TrackedTable, plain: Plain, applying: Applying): readonly (readonly [string, Cell])[] {
  const cells = Object.entries(plain).map(([column, value]): [string, Cell] => {
    if (table !== 'comment_more' || column !== 'comment') return [column, value];
    return [column, applying.commentSeq(String(value)) ?? null];
  });
  if (table !== 'packet') return cells;
  const folder = applying.folders.get(String(plain.id));
  return folder === undefined ? cells : [...cells, ['folder', folder]];
}

function insert({ table, theirs }: MergeStep, applying: Applying): void {
  if (theirs === undefined) return;
  const cells = cellsFor(table, theirs.plain, applying);
  const names = cells.map(([column]) => `"${column}"`).join(', ');
  const marks = cells.map(() => '?').join(', ');
  applying.db.prepare(`INSERT INTO ${table} (${names}) VALUES (${marks})`).run(...cells.map(([, value]) => value));
}

function update({ table, mine, theirs }: MergeStep, applying: Applying): void {
  if (mine === undefined || theirs === undefined) return;
  const cells = cellsFor(table, theirs.plain, applying).filter(
    ([column]) => !(table === 'packet' && column === 'folder'),
  );
  const sets = cells.map(([column]) => `"${column}" = ?`).join(', ');
  applying.db.prepare(`UPDATE ${table} SET ${sets} WHERE seq = ?`).run(...cells.map(([, value]) => value), mine.seq);
}

/** Makes rows as theirs: what goes first, dependent rows before those they rest on; then what changes; then what is new. */
export function applySteps(db: Database, steps: readonly MergeStep[], folders: PacketFolders): void {
  const byTable = Map.groupBy(steps, ({ table }) => table);
  const of = (table: TrackedTable): readonly MergeStep[] => byTable.get(table) ?? [];
  const comments = new Map<string, number>();
  const applying: Applying = { db, folders, commentSeq: (key) => comments.get(key) };
  for (const table of trackedTables.toReversed()) {
    for (const { mine, theirs } of of(table)) {
      if (theirs === undefined && mine !== undefined) db.prepare(`DELETE FROM ${table} WHERE seq = ?`).run(mine.seq);
    }
  }
  for (const table of trackedTables) {
    if (table === 'comment_more') for (const [key, seq] of commentPlaces(db)) comments.set(key, seq);
    for (const step of of(table)) if (step.mine !== undefined) update(step, applying);
    for (const step of of(table)) if (step.mine === undefined) insert(step, applying);
  }
}

/** The keys of comments as they stand now, new ones included. */
function commentPlaces(db: Database): ReadonlyMap<string, number> {
  const places = new Map<string, number>();
  const rows = db.prepare<[], { seq: number; visit: string; number: string }>(
    'SELECT seq, visit, number FROM comment ORDER BY seq',
  );
  for (const { seq, visit, number } of rows.iterate()) {
    const key = `comment:${visit}:${number}`;
    let free = key;
    for (let n = 2; places.has(free); n += 1) free = `${key}#${n}`;
    places.set(free, seq);
  }
  return places;
}
