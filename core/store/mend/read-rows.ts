import Database from 'better-sqlite3';

export type Cell = string | number | bigint | Buffer | null;
export type Row = Readonly<Record<string, Cell>>;

/** What could be read of a table, and where its rows stood that could not. */
export interface ReadTable {
  readonly rows: ReadonlyMap<number, Row>;
  /** Row numbers whose page can't be read; 'all' where not even the table can be found. */
  readonly holes: ReadonlySet<number> | 'all';
}

/** Past the last row that was seen so many numbers are tried where nobody knows the last one. */
const blindly = 20_000;

function isDamage(error: unknown): boolean {
  return error instanceof Database.SqliteError;
}

interface Asking {
  readonly db: Database.Database;
  readonly table: string;
  readonly columns: string;
}

/** Straight through until a page can't be read; whether it came to the end. */
function readOn({ db, table, columns }: Asking, into: Map<number, Row>): boolean {
  try {
    const all = db.prepare<[], Row & { readonly _row: number }>(
      `SELECT rowid AS _row, ${columns} FROM "${table}" NOT INDEXED ORDER BY rowid`,
    );
    for (const { _row, ...row } of all.iterate()) into.set(_row, row);
    return true;
  } catch (error) {
    if (!isDamage(error)) throw error;
    return false;
  }
}

function lastRow({ db, table }: Asking, seen: number): number {
  const asks = [`SELECT max(rowid) FROM "${table}"`, `SELECT seq FROM sqlite_sequence WHERE name = '${table}'`];
  let last = 0;
  for (const ask of asks) {
    try {
      last = Math.max(last, db.prepare<[], number | null>(ask).pluck().get() ?? 0);
    } catch (error) {
      if (!isDamage(error)) throw error;
    }
  }
  return last > 0 ? last : seen + blindly;
}

/** Row by row, for what lies behind a page that can't be read. */
function readEach(asking: Asking, into: Map<number, Row>): ReadonlySet<number> {
  const holes = new Set<number>();
  const { db, table, columns } = asking;
  const one = db.prepare<[number], Row>(`SELECT ${columns} FROM "${table}" NOT INDEXED WHERE rowid = ?`);
  const seen = Math.max(0, ...[...into.keys()].slice(-1));
  const last = lastRow(asking, seen);
  for (let row = seen + 1; row <= last; row += 1) {
    try {
      const found = one.get(row);
      if (found !== undefined) into.set(row, found);
    } catch (error) {
      if (!isDamage(error)) throw error;
      holes.add(row);
    }
  }
  return holes;
}

/**
 * Reads what can be read of a table in a database that may be damaged.
 * @param columns those wanted; one the table does not have (an older lot) is left out
 */
export function readTable(db: Database.Database, table: string, columns: readonly string[]): ReadTable {
  const rows = new Map<number, Row>();
  try {
    const there = new Set(db.prepare<[string], string>('SELECT name FROM pragma_table_info(?)').pluck().all(table));
    const wanted = columns.filter((name) => there.has(name)).map((name) => `"${name}"`);
    if (wanted.length === 0) return { rows, holes: 'all' };
    const asking = { db, table, columns: wanted.join(', ') };
    return { rows, holes: readOn(asking, rows) ? new Set() : readEach(asking, rows) };
  } catch (error) {
    if (!isDamage(error)) throw error;
    return { rows, holes: 'all' };
  }
}
