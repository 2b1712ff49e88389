import type { Database } from 'better-sqlite3';
import { LotfileError } from '../vocabulary/errors.ts';
import type { PaperId } from '../vocabulary/lot.ts';
import { aboutTo } from './disk.ts';
import type { ActId } from './keeping-model.ts';
import type { Lease } from './lease.ts';
import { papersTouched } from './papers-touched.ts';
import { indexChanged } from './search-index.ts';
import { databaseTrouble } from './trouble.ts';

export interface LedgerParts {
  readonly db: Database;
  readonly folder: string;
  /** Undefined where the lot is only looked at. */
  readonly lease: Lease | undefined;
  readonly now: () => Date;
}

/** The open database of a lot with the rule of acts laid over it; every module of the store writes through this. */
export class Ledger {
  readonly db: Database;
  readonly folder: string;
  readonly now: () => Date;
  readonly #lease: Lease | undefined;
  /** Paths handed out in working/ by this program: no sweep touches them. */
  readonly issued = new Set<string>();
  #act: ActId | undefined;
  #version = 0;
  /** Papers that acts touched since somebody last asked; 'all' where it can't be told which. */
  #touched: Set<PaperId> | 'all' = 'all';
  #others: unknown;

  constructor(parts: LedgerParts) {
    this.db = parts.db;
    this.folder = parts.folder;
    this.now = parts.now;
    this.#lease = parts.lease;
  }

  get readOnly(): boolean {
    return this.#lease === undefined;
  }

  /** Changes with every committed change of this or another connection; undefined inside an act, where nothing is settled. */
  version(): string | undefined {
    if (this.#act !== undefined) return undefined;
    return `${this.#version}/${String(this.db.pragma('data_version', { simple: true }))}`;
  }

  /** @throws LotfileError `wrong use` where the lot was opened for looking, `lot busy` where its lease is lost. */
  mustWrite(): Lease {
    if (this.#lease === undefined) {
      throw new LotfileError('wrong use', 'This lot was opened for looking only.', {
        about: this.folder,
        next: 'Open it for work to change something.',
      });
    }
    this.translated(() => this.#lease?.mustHold());
    return this.#lease;
  }

  /**
   * Runs `fn` in one transaction without an act: for content that is named by its hash and needs no undo.
   * @param shown whether what papers look like may change by it
   */
  keep<T>(fn: () => T, shown: 'shown' | 'new content' = 'shown'): T {
    const lease = this.mustWrite();
    if (shown === 'shown') this.#touched = 'all';
    return this.#commit(lease, fn);
  }

  #commit<T>(lease: Lease, fn: () => T): T {
    return this.translated(() => {
      const value = this.db
        .transaction(() => {
          lease.mustHold();
          const done = fn();
          aboutTo('commit', this.folder);
          return done;
        })
        .immediate();
      this.#version += 1;
      return value;
    });
  }

  /** Papers that changed since this was last asked, by their ids; 'all' where anything may have. */
  takeTouched(): ReadonlySet<PaperId> | 'all' {
    // Nothing is settled within an act, and all of it may yet be taken back.
    if (this.#act !== undefined) {
      this.#touched = 'all';
      return 'all';
    }
    const others: unknown = this.db.pragma('data_version', { simple: true });
    const touched = others === this.#others ? this.#touched : 'all';
    this.#others = others;
    this.#touched = new Set();
    return touched;
  }

  /** Groups what `fn` does into one recorded act; inside an act it joins that one, still all or nothing. */
  act<T>(title: string, fn: () => T): T {
    if (this.#act !== undefined) return this.translated(() => this.db.transaction(fn)());
    return this.#commit(this.mustWrite(), () => this.#begin(title, fn));
  }

  #begin<T>(title: string, fn: () => T): T {
    const added = this.db.prepare('INSERT INTO act (title, at) VALUES (?, ?)').run(title, this.now().toISOString());
    const act = Number(added.lastInsertRowid);
    this.db.prepare('INSERT INTO temp.doing (act) VALUES (?)').run(act);
    this.#act = act;
    try {
      const value = fn();
      if (value instanceof Promise) {
        throw new LotfileError('internal', 'An act must be done at once: its work must not be asynchronous.');
      }
      this.#end(act);
      return value;
    } finally {
      this.#act = undefined;
    }
  }

  #end(act: ActId): void {
    this.db.prepare('DELETE FROM temp.doing').run();
    const changed = this.db.prepare('SELECT 1 FROM change WHERE act = ? LIMIT 1').get(act);
    const lasting = this.db.prepare('SELECT 1 FROM act WHERE seq = ? AND lasting IS NOT NULL').get(act);
    if (changed !== undefined) {
      indexChanged(this.db, act);
      if (this.#touched !== 'all') for (const paper of papersTouched(this.db, act)) this.#touched.add(paper);
    } else if (lasting === undefined) this.db.prepare('DELETE FROM act WHERE seq = ?').run(act);
  }

  /** The act under way. */
  currentAct(): ActId {
    if (this.#act === undefined) throw new LotfileError('internal', 'No act is under way.');
    return this.#act;
  }

  /** Says why the act under way can never be undone. */
  lasting(why: string): void {
    this.db.prepare('UPDATE act SET lasting = ? WHERE seq = ?').run(why, this.currentAct());
  }

  /** Runs `fn` with database errors told in plain sentences. */
  translated<T>(fn: () => T): T {
    try {
      return fn();
    } catch (error) {
      throw databaseTrouble(error, this.folder);
    }
  }

  /** @throws LotfileError `not found` where no row of the table has this id. */
  mustHave(table: 'paper' | 'edition' | 'subject' | 'visit' | 'packet' | 'handover', id: string): void {
    const found = this.db.prepare<[string], unknown>(`SELECT 1 FROM ${table} WHERE id = ?`).get(id);
    if (found === undefined) {
      throw new LotfileError('not found', `There is no such ${table} in this lot.`, {
        about: id,
        next: 'It may have been undone in another window; look at the lot again.',
      });
    }
  }
}
