import type { Database } from 'better-sqlite3';
import * as z from 'zod';
import { columnsOf, imageOf, type TrackedTable } from '../changes.ts';
import { onceEach } from '../once-each.ts';
import { rowKeys } from './merge-keys.ts';

export type Cell = string | number | null;
/** A row as both sides can compare it: without its place in the table. */
export type Plain = Readonly<Record<string, Cell>>;

export interface SideRow {
  readonly key: string;
  readonly seq: number;
  readonly plain: Plain;
  readonly text: string;
}

const imageShape = z.record(z.string(), z.union([z.string(), z.number(), z.null()]));
/** Differs from computer to computer and says nothing: where the row stands, what a packet's folder is called. */
const ownAlone: readonly string[] = ['seq'];
const leftOut: Partial<Readonly<Record<TrackedTable, readonly string[]>>> = { packet: ['folder'] };

const columnsOnce = onceEach((_db: Database) => new Map<string, readonly string[]>());

function columns(db: Database, table: TrackedTable): readonly string[] {
  const known = columnsOnce(db);
  const found = known.get(table) ?? columnsOf(db, table);
  known.set(table, found);
  return found;
}

/** How a takeover is called in the history. */
export const takeoverTitle = 'Taken over from a bundle';

/** Takeovers that were taken back, and the taking back: as if they had never been, so that one can choose anew. */
function undoneTakeovers(db: Database): string {
  const acts = db
    .prepare<[string], { seq: number; undoes: number }>(
      'SELECT seq, undoes FROM act WHERE undoes IS NOT NULL AND title LIKE ?',
    )
    .all(`Undone: ${takeoverTitle}%`);
  return JSON.stringify(acts.flatMap(({ seq, undoes }) => [seq, undoes]));
}

/** One of the two lots, read as rows that carry their own names. */
export class MergeSide {
  readonly db: Database;
  /** Papers of theirs that are one with a paper of ours: id -> id. */
  readonly #alias: ReadonlyMap<string, string>;
  readonly #tables = new Map<TrackedTable, ReadonlyMap<string, SideRow>>();
  readonly #removed = new Map<TrackedTable, ReadonlyMap<string, ReadonlySet<string>>>();
  /** Acts that count for nothing, as JSON for the statements. */
  readonly #without: string;
  #commentKeys: ReadonlyMap<number, string> | undefined;

  constructor(db: Database, alias: ReadonlyMap<string, string> = new Map()) {
    this.db = db;
    this.#alias = alias;
    this.#without = undoneTakeovers(db);
  }

  rows(table: TrackedTable): ReadonlyMap<string, SideRow> {
    const known = this.#tables.get(table);
    if (known !== undefined) return known;
    const made = new Map<string, SideRow>();
    const sql = `SELECT seq, ${imageOf(columns(this.db, table), 'row')} AS image FROM ${table} AS row ORDER BY seq`;
    for (const { seq, image } of this.db.prepare<[], { seq: number; image: string }>(sql).iterate()) {
      const plain = this.#plain(table, image);
      const key = this.#free(this.#key(table, plain), made);
      made.set(key, { key, seq, plain, text: JSON.stringify(plain) });
    }
    this.#tables.set(table, made);
    return made;
  }

  /** Whether the row ever said this: then what says it elsewhere is an older state of the same row. */
  everSaid(table: TrackedTable, row: SideRow, text: string): boolean {
    const images = this.db
      .prepare<[{ table: string; seq: number; without: string }], string | null>(
        `WITH own AS (SELECT before, after FROM change WHERE tbl = :table AND row_key = :seq
           AND act NOT IN (SELECT value FROM json_each(:without)))
         SELECT before FROM own UNION SELECT after FROM own`,
      )
      .pluck()
      .all({ table, seq: row.seq, without: this.#without });
    return images.some((image) => image !== null && JSON.stringify(this.#plain(table, image)) === text);
  }

  /** What rows said when they were taken away, by their key. */
  removed(table: TrackedTable): ReadonlyMap<string, ReadonlySet<string>> {
    const known = this.#removed.get(table);
    if (known !== undefined) return known;
    const made = new Map<string, Set<string>>();
    const images = this.db
      .prepare<[string, string], string>(
        `SELECT before FROM change WHERE tbl = ? AND after IS NULL AND before IS NOT NULL
           AND act NOT IN (SELECT value FROM json_each(?))`,
      )
      .pluck()
      .all(table, this.#without);
    for (const image of images) {
      const plain = this.#plain(table, image);
      const key = this.#key(table, plain);
      const texts = made.get(key) ?? new Set<string>();
      made.set(key, texts.add(JSON.stringify(plain)));
    }
    this.#removed.set(table, made);
    return made;
  }

  #key(table: TrackedTable, plain: Plain): string {
    return [table, ...rowKeys[table].map((column) => String(plain[column]))].join(':');
  }

  /** Where the words of two rows are the same, the second is the second. */
  #free(key: string, taken: ReadonlyMap<string, unknown>): string {
    let free = key;
    for (let n = 2; taken.has(free); n += 1) free = `${key}#${n}`;
    return free;
  }

  #plain(table: TrackedTable, image: string): Plain {
    const read = imageShape.parse(JSON.parse(image));
    const skipped = [...ownAlone, ...(leftOut[table] ?? [])];
    const cells = columns(this.db, table)
      .filter((column) => !skipped.includes(column))
      .map((column): [string, Cell] => [column, this.#cell(table, column, read[column] ?? null)]);
    return Object.fromEntries(cells);
  }

  #cell(table: TrackedTable, column: string, value: Cell): Cell {
    if (table === 'comment_more' && column === 'comment' && typeof value === 'number') {
      this.#commentKeys ??= new Map([...this.rows('comment').values()].map((row) => [row.seq, row.key]));
      return this.#commentKeys.get(value) ?? `comment:gone:${value}`;
    }
    const paper = (table === 'edition' && column === 'paper') || (table === 'paper' && column === 'id');
    return paper && typeof value === 'string' ? (this.#alias.get(value) ?? value) : value;
  }
}

/** Papers both sides began by themselves for the same kind and firm: theirs is read as ours. */
export function sharedPapers(mine: Database, theirs: Database): ReadonlyMap<string, string> {
  interface Row {
    readonly id: string;
    readonly name: string;
  }
  const sql = "SELECT id, kind || ' ' || coalesce(subject, '') AS name FROM paper WHERE kind <> 'other' ORDER BY seq";
  const ours = mine.prepare<[], Row>(sql).all();
  const known = new Set(ours.map(({ id }) => id));
  const byName = new Map(ours.toReversed().map(({ id, name }) => [name, id]));
  const rows = theirs.prepare<[], Row>(sql).all();
  const there = new Set(rows.map(({ id }) => id));
  const pairs = rows.flatMap(({ id, name }): [string, string][] => {
    const own = byName.get(name);
    return known.has(id) || own === undefined || there.has(own) ? [] : [[id, own]];
  });
  return new Map(pairs);
}
