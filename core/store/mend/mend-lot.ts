import { copyFileSync, existsSync, readdirSync, statSync } from 'node:fs';
import { extname, join, resolve } from 'node:path';
import Database from 'better-sqlite3';
import { LotfileError } from '../../vocabulary/errors.ts';
import { copiesIn, copyPath } from '../copies.ts';
import { applicationId, openDatabase } from '../database.ts';
import { linkFile, removeFile, renameFile, syncFile, syncFolder } from '../disk.ts';
import { processLives } from '../lease.ts';
import { knownMigrations, pendingMigrations, runMigrations } from '../migrations.ts';
import { makeFolder, newTemporaryPath } from '../places.ts';
import { indexAll } from '../search-index.ts';
import { fileTrouble } from '../trouble.ts';
import { dropHanging, type Filled, fillTable, tablesOf } from './fill.ts';
import { mendWords } from './mend-words.ts';

export interface Mended {
  readonly title: string;
  /** What was read, what came from a copy, what is gone; whole sentences. */
  readonly notes: readonly string[];
}

interface Sources {
  readonly damaged: Database.Database | undefined;
  readonly copy: Database.Database | undefined;
  readonly copyName: string | undefined;
}

/** The damaged file is only read, and only a copy of it: what an interrupted write left beside it goes along. */
function openDamaged(folder: string, aside: string): Database.Database | undefined {
  for (const end of ['', '-journal']) {
    const from = join(folder, `lot.sqlite${end}`);
    if (existsSync(from)) copyFileSync(from, `${aside}${end}`);
  }
  try {
    const db = new Database(aside);
    db.pragma('trusted_schema = OFF');
    if (db.pragma('application_id', { simple: true }) === applicationId) return db;
    db.close();
    return undefined;
  } catch {
    return undefined;
  }
}

/** The newest whole copy; those that can't be read are passed over. */
function openCopy(folder: string): Pick<Sources, 'copy' | 'copyName'> {
  for (const name of copiesIn(folder)) {
    let db: Database.Database | undefined;
    try {
      db = new Database(copyPath(folder, name), { readonly: true });
      if (db.pragma('quick_check(1)', { simple: true }) === 'ok') return { copy: db, copyName: name };
    } catch {
      // The next older one may be whole.
    }
    db?.close();
  }
  return { copy: undefined, copyName: undefined };
}

/** Nobody may be at work in it; where even that can't be read, nobody is. */
function refuseHeld(db: Database.Database | undefined, host: string): void {
  let row: { host: string; pid: number; program: string } | undefined;
  try {
    row = db?.prepare<[], { host: string; pid: number; program: string }>('SELECT host, pid, program FROM lease').get();
  } catch {
    return;
  }
  if (row === undefined || row.pid === process.pid || row.host !== host || !processLives(row.pid)) return;
  throw new LotfileError('lot busy', `This lot is open in ${row.program} (process ${row.pid}).`, {
    about: row.program,
    next: 'Close it there first, then mend it.',
  });
}

/**
 * Tables that other steps made would be left out without a word. Where a database can't tell its steps any more they
 * are taken to be ours.
 * @throws LotfileError `lot newer`, `lot damaged` as at opening; nothing was changed then.
 */
function refuseStrange(db: Database.Database | undefined): void {
  try {
    if (db !== undefined) pendingMigrations(db, knownMigrations());
  } catch (error) {
    if (!(error instanceof Database.SqliteError)) throw error;
  }
}

/** Originals whose row is lost are named by their hash on the disk: their papers keep them. */
function adoptOriginals(db: Database.Database, folder: string): number {
  const add = db.prepare('INSERT OR IGNORE INTO file (sha, name, ext, bytes) VALUES (?, ?, ?, ?)');
  const asked = db.prepare<[{ sha: string }], number>(
    'SELECT 1 FROM edition_original WHERE file = :sha UNION SELECT 1 FROM record WHERE record.file = :sha',
  );
  let adopted = 0;
  for (const entry of readdirSync(join(folder, 'originals'), { recursive: true, withFileTypes: true })) {
    const sha = /^([0-9a-f]{64})\./.exec(entry.name)?.[1];
    if (sha === undefined || !entry.isFile() || asked.get({ sha }) === undefined) continue;
    const ext = extname(entry.name).slice(1);
    const { size } = statSync(join(entry.parentPath, entry.name));
    adopted += add.run(sha, `file ${sha.slice(0, 8)}.${ext}`, ext, size).changes;
  }
  return adopted;
}

function fillAll(db: Database.Database, folder: string, from: Sources) {
  const filled: Filled[] = [];
  const { adopted, dropped } = db.transaction(() => {
    for (const table of tablesOf(db)) filled.push(fillTable(db, table, from));
    return { adopted: adoptOriginals(db, folder), dropped: dropHanging(db) };
  })();
  return { filled, adopted, dropped };
}

function mustBeLot(db: Database.Database): string {
  const title = db.prepare<[], string>('SELECT title FROM lot').pluck().get();
  if (title !== undefined) return title;
  throw new LotfileError('lot damaged', 'lot.sqlite can’t be read any more, and no copy of it is whole.', {
    about: 'lot.sqlite',
    next: 'Restore your newest backup into a new folder: restore. The papers’ files are still in originals/.',
  });
}

function noteMending(db: Database.Database, now: Date): void {
  db.prepare('INSERT INTO act (title, at, lasting) VALUES (?, ?, ?)').run(
    'The lot’s database was mended',
    now.toISOString(),
    'What was lost on the disk can’t be brought back by undoing.',
  );
}

/** The damaged file gets a name of its own first, then the mended one takes its place in one step. */
function takePlace(folder: string, mended: string): string {
  const file = join(folder, 'lot.sqlite');
  let name = 'lot.damaged-1.sqlite';
  for (let n = 2; existsSync(join(folder, name)); n += 1) name = `lot.damaged-${n}.sqlite`;
  try {
    linkFile(file, join(folder, name));
  } catch {
    // Not every disk knows second names.
    copyFileSync(file, join(folder, name));
  }
  syncFile(mended);
  removeFile(join(folder, 'lot.sqlite-journal'));
  renameFile(mended, file);
  syncFolder(folder);
  return name;
}

function mustHoldLot(path: string): string {
  const folder = resolve(path);
  if (existsSync(join(folder, 'lot.sqlite'))) return folder;
  throw new LotfileError('not found', 'There is no lot in this folder.', {
    about: folder,
    next: 'Choose the folder that holds lot.sqlite.',
  });
}

/**
 * Builds lot.sqlite anew from every row that can still be read, fills the holes from the newest whole copy, and tells
 * what is gone. The damaged file stays beside it under another name.
 * @throws LotfileError `lot damaged` where neither it nor any copy holds a lot or its tables differ from ours, `lot newer`; nothing is changed then.
 */
export function mendLot(path: string, host: string, now: Date): Mended {
  const folder = mustHoldLot(path);
  for (const name of ['working', 'originals']) makeFolder(join(folder, name));
  const issued = new Set<string>();
  const aside = newTemporaryPath({ folder, issued });
  const mended = newTemporaryPath({ folder, issued });
  let from: Sources | undefined;
  try {
    from = { damaged: openDamaged(folder, aside), ...openCopy(folder) };
    refuseHeld(from.damaged, host);
    refuseStrange(from.damaged);
    refuseStrange(from.copy);
    new Database(mended).close();
    const db = openDatabase(mended, { readOnly: false, fresh: true });
    try {
      runMigrations(db, knownMigrations());
      db.pragma('foreign_keys = OFF');
      const done = fillAll(db, folder, from);
      const title = mustBeLot(db);
      db.transaction(() => {
        indexAll(db);
        noteMending(db, now);
      })();
      db.close();
      const kept = takePlace(folder, mended);
      return { title, notes: mendWords({ ...done, copyName: from.copyName, kept }) };
    } finally {
      db.close();
    }
  } catch (error) {
    throw fileTrouble(error, folder, 'Mending the lot');
  } finally {
    from?.damaged?.close();
    from?.copy?.close();
    for (const file of issued) for (const end of ['', '-journal']) removeFile(`${file}${end}`);
  }
}
