import type { Database } from 'better-sqlite3';
import { type Row, readTable } from './read-rows.ts';

/** What became of one table. */
export interface Filled {
  readonly table: string;
  readonly read: number;
  readonly fromCopy: number;
  /** Rows that stood in what can't be read, and in no copy; 'unknown' where nobody can count them. */
  readonly lost: number | 'unknown';
}

/** Derived, or nobody's: written anew afterwards. */
const notCarried = /^(lease|migration|page_words|paper_words|sqlite_)/;

/** Tables of the lot, those first that others rest on as far as the order of their making tells. */
export function tablesOf(db: Database): readonly string[] {
  return db
    .prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY rowid")
    .pluck()
    .all()
    .filter((name) => !notCarried.test(name));
}

/** Rows told apart by their content (a hash) have no lasting number: a copy may count them otherwise. */
function isNumbered(db: Database, table: string): boolean {
  const key = "SELECT 1 FROM pragma_table_info(?) WHERE pk = 1 AND type = 'INTEGER'";
  return db.prepare<[string], number>(key).get(table) !== undefined;
}

function put(db: Database, table: string, cells: Row): boolean {
  const names = Object.keys(cells);
  const own = names.map((name) => `"${name}"`).join(', ');
  const marks = names.map(() => '?').join(', ');
  try {
    const done = db.prepare(`INSERT OR IGNORE INTO "${table}" (${own}) VALUES (${marks})`).run(...Object.values(cells));
    return done.changes === 1;
  } catch {
    // What a damaged page gave is no row of ours: a word where a number must be, a choice that isn't one.
    return false;
  }
}

/** Fills one table from the damaged database, and its holes from a copy. */
export function fillTable(
  db: Database,
  table: string,
  from: { readonly damaged: Database | undefined; readonly copy: Database | undefined },
): Filled {
  const columns = db.prepare<[string], string>('SELECT name FROM pragma_table_info(?)').pluck().all(table);
  const found = from.damaged === undefined ? undefined : readTable(from.damaged, table, columns);
  const holes = found?.holes ?? 'all';
  const numbered = isNumbered(db, table);
  let read = 0;
  let spoilt = 0;
  for (const cells of found?.rows.values() ?? []) {
    if (put(db, table, cells)) read += 1;
    else spoilt += 1;
  }
  const missing = holes === 'all' || holes.size > 0 || spoilt > 0;
  const older = missing && from.copy !== undefined ? readTable(from.copy, table, columns).rows : new Map<number, Row>();
  let fromCopy = 0;
  for (const [row, cells] of older) {
    const wanted = holes === 'all' || holes.has(row) || spoilt > 0 || !numbered;
    if (wanted && put(db, table, cells)) fromCopy += 1;
  }
  if (holes === 'all') return { table, read, fromCopy, lost: from.copy === undefined ? 'unknown' : 0 };
  return { table, read, fromCopy, lost: Math.max(0, holes.size + spoilt - fromCopy) };
}

interface Hanging {
  readonly table: string;
  readonly rowid: number;
}

/** Takes out rows that rest on what is lost, until none does; how many of which table. */
export function dropHanging(db: Database): ReadonlyMap<string, number> {
  const dropped = new Map<string, number>();
  for (;;) {
    const hanging = db.prepare<[], Hanging>('SELECT DISTINCT "table", rowid FROM pragma_foreign_key_check').all();
    if (hanging.length === 0) return dropped;
    for (const { table, rowid } of hanging) {
      const { changes } = db.prepare(`DELETE FROM "${table}" WHERE rowid = ?`).run(rowid);
      dropped.set(table, (dropped.get(table) ?? 0) + changes);
    }
  }
}
