import { statSync } from 'node:fs';
import Database from 'better-sqlite3';
import { LotfileError } from '../vocabulary/errors.ts';
import { databaseTrouble, lotDamaged } from './trouble.ts';

/** "LOTF": tells a lot from any other SQLite file. */
export const applicationId = 0x4c4f5446;

/** A file that is no lot: mending helps only where a copy of the lot lies beside it. */
function noLot(file: string, hasCopies: boolean): LotfileError {
  const say =
    statSync(file).size === 0
      ? 'lot.sqlite in this folder is empty.'
      : 'lot.sqlite in this folder was not made by this program, or is damaged.';
  if (hasCopies) return lotDamaged(file, { say });
  return new LotfileError('lot damaged', say, {
    about: file,
    next: 'Choose the lot folder itself. If this is it, restore your newest backup into a new folder: restore. Nothing was changed.',
  });
}

/**
 * Opens lot.sqlite the only way it is ever opened: foreign keys on, rollback journal, full sync, deleted text overwritten.
 * @param options.hasCopies whole copies of it lie in the lot folder: where it is no lot, mending is asked for
 * @throws LotfileError `lot damaged` where the file is no lot.
 */
export function openDatabase(
  file: string,
  options: { readOnly: boolean; fresh: boolean; hasCopies?: boolean },
): Database.Database {
  let db: Database.Database | undefined;
  try {
    db = new Database(file, { readonly: options.readOnly, fileMustExist: true, timeout: 4000 });
    // Roomier than the default, since a page's text is about 2 KB; only a new file takes it.
    if (options.fresh) db.pragma('page_size = 8192');
    db.pragma('foreign_keys = ON');
    db.pragma('recursive_triggers = ON');
    db.pragma('temp_store = MEMORY');
    db.pragma('cache_size = -32000');
    if (options.readOnly) db.pragma('query_only = ON');
    else {
      db.pragma('journal_mode = DELETE');
      db.pragma('synchronous = FULL');
      db.pragma('fullfsync = ON');
      db.pragma('secure_delete = ON');
    }
    if (options.fresh) db.pragma(`application_id = ${applicationId}`);
    if (db.pragma('application_id', { simple: true }) !== applicationId) {
      throw noLot(file, options.hasCopies === true);
    }
    return db;
  } catch (error) {
    db?.close();
    throw databaseTrouble(error, file);
  }
}
