import { closeSync, existsSync, mkdirSync, openSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Database } from 'better-sqlite3';
import { LotfileError } from '../vocabulary/errors.ts';
import { watchChanges } from './changes.ts';
import { copiesIn, copyBefore } from './copies.ts';
import { openDatabase } from './database.ts';
import { removeFile, syncFile, syncFolder } from './disk.ts';
import { takeName } from './free-name.ts';
import { Lease } from './lease.ts';
import { Ledger } from './ledger.ts';
import type { CreateOptions, OpenOptions } from './lot-model.ts';
import { knownMigrations, type Migration, pendingMigrations, runMigrations } from './migrations.ts';
import { lotFolders, newTemporaryPath } from './places.ts';
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

function refuseSecond(folder: string): void {
  if (!existsSync(join(folder, database))) return;
  throw new LotfileError('wrong use', 'There already is a lot in this folder.', {
    about: folder,
    next: 'Open it, or choose an empty folder.',
  });
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

/** A whole new lot in a file of its own: who works on it is asked when it is opened. */
function bearDatabase(file: string, folder: string, options: CreateOptions): void {
  closeSync(openSync(file, 'wx'));
  const db = openDatabase(file, { readOnly: false, fresh: true });
  try {
    const known = knownMigrations();
    runMigrations(db, known);
    const { lease, ledger } = work(db, folder, { ...options, known });
    try {
      beginLot(ledger, options);
    } finally {
      lease?.release();
    }
  } finally {
    db.close();
  }
}

/**
 * Makes an empty lot in a new or empty folder. It is made whole aside and gets its name last: a program that dies
 * meanwhile leaves no half a lot, and of two that begin one in the same folder the second is told.
 */
export function makeLot(path: string, options: CreateOptions): Opened {
  const folder = resolve(path);
  refuseSyncedFolder(folder);
  refuseSecond(folder);
  let temporary: string | undefined;
  try {
    mkdirSync(folder, { recursive: true });
    makeFolders(folder);
    temporary = newTemporaryPath({ folder, issued: new Set() });
    bearDatabase(temporary, folder, options);
    syncFile(temporary);
    if (!takeName(temporary, join(folder, database))) refuseSecond(folder);
    syncFolder(folder);
  } catch (error) {
    throw fileTrouble(databaseTrouble(error, folder), folder, 'Beginning a lot here');
  } finally {
    if (temporary !== undefined) removeFile(temporary);
  }
  return openFolder(folder, options);
}

/** Takes the lease, then makes the tables what this program knows, then lays the rule of acts over them. */
function work(db: Database, folder: string, options: WorkOptions): Opened {
  const now = options.now ?? (() => new Date());
  const lease = new Lease(db, now);
  lease.take(options.holder, options.takeOver ?? false);
  try {
    makeFolders(folder);
    bringUpToDate(db, folder, options.known);
    watchChanges(db);
    return { lease, ledger: new Ledger({ db, folder, lease, now }) };
  } catch (error) {
    lease.release();
    throw error;
  }
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
  copyBefore(db, folder, first.name);
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
    const hasCopies = copiesIn(folder).length > 0;
    db = openDatabase(file, { readOnly: options.readOnly ?? false, fresh: false, hasCopies });
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
