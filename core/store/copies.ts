import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import type { Day } from '../vocabulary/days.ts';
import { isDay } from '../vocabulary/days.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import { applicationId } from './database.ts';
import { aboutTo, removeFile, renameFile, syncFile, syncFolder } from './disk.ts';
import type { Ledger } from './ledger.ts';
import { makeFolder, newTemporaryPath } from './places.ts';
import { databaseTrouble, fileTrouble, lotDamaged } from './trouble.ts';

/**
 * Whole copies of the database in copies/: one of each of the last days the lot was used, and one from before each
 * step of its tables. The papers' files need none: they are named by their hash and never written over.
 */
const copiesFolder = 'copies';
const daysKept = 5;
const stepsKept = 3;

const stepCopy = /^before-\d{4}-.*\.sqlite$/;

function dayOf(name: string): Day | undefined {
  const day = name.replace(/\.sqlite$/, '');
  return isDay(day) ? day : undefined;
}

function namesIn(folder: string): readonly string[] {
  const copies = join(folder, copiesFolder);
  // Something else may lie there: no copies then, and the lot opens all the same.
  const there = statSync(copies, { throwIfNoEntry: false })?.isDirectory() === true;
  return there ? readdirSync(copies).toSorted() : [];
}

function acts(db: Database.Database): number {
  return db.prepare<[], number>('SELECT coalesce(max(seq), 0) FROM act').pluck().get() ?? 0;
}

function isWhole(db: Database.Database): boolean {
  try {
    return db.pragma('quick_check(1)', { simple: true }) === 'ok';
  } catch (error) {
    // Only what SQLite itself calls damage is damage: a lot that is busy just now must not be told as broken.
    if (error instanceof Database.SqliteError && /^SQLITE_(CORRUPT|NOTADB)/.test(error.code)) return false;
    throw error;
  }
}

function isOurs(copy: Database.Database, least: number): boolean {
  return copy.pragma('application_id', { simple: true }) === applicationId && acts(copy) >= least;
}

/**
 * A copy is one only when it was opened again: whole in itself, ours, and as new as the lot was when it was begun.
 * @throws LotfileError `lot damaged` where it is the lot that isn't whole, `disk` where only the copy isn't.
 */
function prove(copy: string, least: number, lot: Database.Database): void {
  const db = new Database(copy);
  try {
    if (!isWhole(db) || !isOurs(db, least)) {
      if (!isWhole(lot)) throw lotDamaged('lot.sqlite');
      throw new LotfileError('disk', 'The safety copy of the lot could not be read back as it was written.', {
        about: 'copies',
        next: 'Check the disk: it may be failing. Make a backup on another one: bundle.',
      });
    }
    db.pragma('journal_mode = DELETE');
    // Nobody works in a copy.
    db.pragma('secure_delete = ON');
    db.exec('DELETE FROM lease');
  } finally {
    db.close();
  }
}

function settle(folder: string, temporary: string, name: string): void {
  makeFolder(join(folder, copiesFolder));
  syncFile(temporary);
  renameFile(temporary, join(folder, copiesFolder, name));
  syncFolder(join(folder, copiesFolder));
}

function remove(folder: string, names: readonly string[]): void {
  for (const name of names) removeFile(join(folder, copiesFolder, name));
}

function pruneSteps(folder: string): void {
  remove(
    folder,
    namesIn(folder)
      .filter((name) => stepCopy.test(name))
      .slice(0, -stepsKept),
  );
}

/** Names ahead of today come from a clock that was wrong: however late they say they are, they go first. */
function pruneDays(folder: string, today: Day): void {
  const days = namesIn(folder).filter((name) => dayOf(name) !== undefined);
  const isAhead = (name: string): boolean => (dayOf(name) ?? today) > today;
  remove(folder, [...days.filter(isAhead), ...days.filter((name) => !isAhead(name))].slice(0, -daysKept));
}

/** A whole copy as the lot is before a step of its tables, made, read back and named before the step is begun. */
export function copyBefore(db: Database.Database, folder: string, step: string): void {
  const stem = `before-${step.replace(/\.sql$/, '')}`;
  let name = `${stem}.sqlite`;
  for (let n = 2; existsSync(join(folder, copiesFolder, name)); n += 1) name = `${stem}-again-${n}.sqlite`;
  const temporary = newTemporaryPath({ folder, issued: new Set() });
  try {
    aboutTo('write', temporary);
    db.prepare('VACUUM INTO ?').run(temporary);
    prove(temporary, acts(db), db);
    settle(folder, temporary, name);
    pruneSteps(folder);
  } finally {
    removeFile(temporary);
  }
}

/** Pages are copied as they lie: what can't be read then is the lot itself, or another program holds it just now. */
function copyTrouble(error: unknown): LotfileError {
  const told = databaseTrouble(error, 'lot.sqlite');
  if (told instanceof LotfileError && (told.asks === 'mending' || told.code === 'lot busy')) return told;
  return fileTrouble(error, 'copies', 'Writing today’s safety copy');
}

/**
 * Today's copy, where there is none yet. Written page by page between other requests; what is changed meanwhile is in
 * it. The days of the clock only name copies: a clock set back makes another one, and that one stays.
 * @returns its name; undefined where today's stands already.
 */
export async function copyOfDay(ledger: Ledger, day: Day, signal?: AbortSignal): Promise<string | undefined> {
  ledger.mustWrite();
  const { db, folder } = ledger;
  const name = `${day}.sqlite`;
  if (existsSync(join(folder, copiesFolder, name))) return undefined;
  const temporary = newTemporaryPath(ledger);
  try {
    const least = ledger.translated(() => acts(db));
    aboutTo('write', temporary);
    await db.backup(temporary, {
      progress: () => {
        signal?.throwIfAborted();
        return 500;
      },
    });
    signal?.throwIfAborted();
    prove(temporary, least, db);
    settle(folder, temporary, name);
    pruneDays(folder, day);
    return name;
  } catch (error) {
    if (signal?.aborted === true) return undefined;
    throw copyTrouble(error);
  } finally {
    removeFile(temporary);
    ledger.issued.delete(temporary);
  }
}

/** Names of the whole copies, newest first; those from before a step come after the daily ones. */
export function copiesIn(folder: string): readonly string[] {
  const names = namesIn(folder);
  const days = names.filter((name) => dayOf(name) !== undefined).toReversed();
  return [...days, ...names.filter((name) => stepCopy.test(name)).toReversed()];
}

export function copyPath(folder: string, name: string): string {
  return join(folder, copiesFolder, name);
}

/** Paths of every copy of the database in the lot folder, those that earlier versions laid beside it included. */
export function allCopies(folder: string): readonly string[] {
  const beside = readdirSync(folder).filter((name) => /^lot\.(before|damaged)-.*\.sqlite/.test(name));
  return [...namesIn(folder).map((name) => copyPath(folder, name)), ...beside.map((name) => join(folder, name))];
}
