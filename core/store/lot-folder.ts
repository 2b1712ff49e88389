import { closeSync, existsSync, mkdirSync, openSync, rmSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Database } from 'better-sqlite3';
import { LotfileError } from '../vocabulary/errors.ts';
import { watchChanges } from './changes.ts';
import { openDatabase } from './database.ts';
import { Lease } from './lease.ts';
import { Ledger } from './ledger.ts';
import type { CreateOptions, OpenOptions } from './lot-model.ts';
import { knownMigrations, type Migration, pendingMigrations, runMigrations } from './migrations.ts';
import { lotFolders, syncFile, syncFolder } from './places.ts';
import { keepPractice } from './practices.ts';
import { refuseSyncedFolder } from './synced-folder.ts';
import { databaseTrouble, fileTrouble } from './trouble.ts';

export interface Opened {
  readonly ledger: Ledger;
  readonly lease: Lease | undefined;
}

type WorkOptions = Pick<OpenOptions, 'holder' | 'takeOver' | 'now'> & { readonly known: readonly Migration[] };

const database = 'lot.sqlite';

function makeFolders(folder: string): void {
  for (const name of lotFolders) mkdirSync(join(folder, name), { recursive: true });
}

/** Reserves the name, so that two programs can't both begin a lot in one folder. */
function reserve(folder: string): string {
  const file = join(folder, database);
  if (existsSync(file)) {
    throw new LotfileError('wrong use', 'There already is a lot in this folder.', {
      about: folder,
      next: 'Open it, or choose an empty folder.',
    });
  }
  try {
    mkdirSync(folder, { recursive: true });
    makeFolders(folder);
    closeSync(openSync(file, 'wx'));
    return file;
  } catch (error) {
    throw fileTrouble(error, folder, 'Beginning a lot here');
  }
}

function beginLot(ledger: Ledger, options: CreateOptions): void {
  ledger.act('Lot begun', () => {
    const practice = keepPractice(ledger, options.practice, options.layers);
    ledger.db
      .prepare('INSERT INTO lot (seq, title, begun, practice) VALUES (1, ?, ?, ?)')
      .run(options.title, options.day, practice);
    ledger.lasting('This is where the lot began.');
  });
}

/** Makes an empty lot in a new or empty folder. A database that fails to become a lot is cleared away again. */
export function makeLot(path: string, options: CreateOptions): Opened {
  const folder = resolve(path);
  refuseSyncedFolder(folder);
  const file = reserve(folder);
  let db: Database | undefined;
  let opened: Opened | undefined;
  try {
    db = openDatabase(file, { readOnly: false, fresh: true });
    const known = knownMigrations();
    runMigrations(db, known);
    opened = work(db, folder, { ...options, known });
    beginLot(opened.ledger, options);
    syncFolder(folder);
    return opened;
  } catch (error) {
    opened?.lease?.release();
    db?.close();
    rmSync(file, { force: true });
    throw databaseTrouble(error, folder);
  }
}

/** Takes the lease, then makes the tables what this program knows, then lays the rule of acts over them. */
function work(db: Database, folder: string, options: WorkOptions): Opened {
  const now = options.now ?? (() => new Date());
  const lease = new Lease(db, now);
  lease.take(options.holder, options.takeOver ?? false);
  try {
    bringUpToDate(db, folder, options.known);
    makeFolders(folder);
    watchChanges(db);
    return { lease, ledger: new Ledger({ db, folder, lease, now }) };
  } catch (error) {
    lease.release();
    throw error;
  }
}

/** A whole copy of the database as it is before an older lot is brought up to date. */
function safetyCopy(db: Database, folder: string, first: Migration): void {
  let name = `lot.before-${first.name.replace(/\.sql$/, '')}.sqlite`;
  for (let n = 2; existsSync(join(folder, name)); n += 1)
    name = name.replace(/(-again-\d+)?\.sqlite$/, `-again-${n}.sqlite`);
  const copy = join(folder, name);
  db.prepare('VACUUM INTO ?').run(copy);
  syncFile(copy);
  syncFolder(folder);
}

function mustBeLot(folder: string): string {
  const file = join(folder, database);
  const there = statSync(file, { throwIfNoEntry: false });
  if (there?.isFile() === true) return file;
  throw new LotfileError('not found', 'There is no lot in this folder.', {
    about: folder,
    next: 'Choose the folder that holds lot.sqlite, or begin a new lot.',
  });
}

function bringUpToDate(db: Database, folder: string, known: readonly Migration[]): void {
  const pending = pendingMigrations(db, known);
  const first = pending[0];
  if (first === undefined) return;
  safetyCopy(db, folder, first);
  runMigrations(db, pending);
}

function look(db: Database, folder: string, known: readonly Migration[]): Opened {
  if (pendingMigrations(db, known).length > 0) {
    throw new LotfileError('wrong use', 'This lot was kept by an older version and must be brought up to date first.', {
      about: folder,
      next: 'Open it once for work.',
    });
  }
  return { lease: undefined, ledger: new Ledger({ db, folder, lease: undefined, now: () => new Date() }) };
}

/**
 * Opens a lot folder; an older one is copied and brought up to date, a newer or altered one refused.
 * @param known the migrations of this program; tests bring their own.
 */
export function openFolder(path: string, options: OpenOptions, known = knownMigrations()): Opened {
  const folder = resolve(path);
  let db: Database | undefined;
  try {
    const file = mustBeLot(folder);
    if (options.readOnly !== true) refuseSyncedFolder(folder);
    db = openDatabase(file, { readOnly: options.readOnly ?? false, fresh: false });
    if (options.readOnly === true) return look(db, folder, known);
    // Before the lease: a lot we can't read must not be written to at all.
    pendingMigrations(db, known);
    return work(db, folder, { ...options, known });
  } catch (error) {
    db?.close();
    throw error instanceof LotfileError
      ? error
      : fileTrouble(databaseTrouble(error, folder), folder, 'Opening the lot');
  }
}
