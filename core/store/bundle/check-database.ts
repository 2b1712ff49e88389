import Database from 'better-sqlite3';
import { LotfileError } from '../../vocabulary/errors.ts';
import { applicationId } from '../database.ts';
import { knownMigrations, type Migration, pendingMigrations, runMigrations } from '../migrations.ts';
import { badBundle } from './manifest.ts';

type Thing = readonly [type: string, name: string, table: string, sql: string | null];

function schemaOf(db: Database.Database): readonly string[] {
  return db
    .prepare<[], Thing>("SELECT type, name, tbl_name, sql FROM sqlite_schema WHERE name NOT LIKE 'sqlite_%'")
    .raw()
    .all()
    .map((thing) => JSON.stringify(thing))
    .toSorted();
}

/** The tables as our own steps make them, so far as the lot went. */
function schemaAfter(steps: readonly Migration[]): readonly string[] {
  const db = new Database(':memory:');
  try {
    runMigrations(db, steps);
    return schemaOf(db);
  } finally {
    db.close();
  }
}

/**
 * Looks at a database that came from elsewhere before anything is asked of it: ours by its mark, no step we don't know,
 * exactly the tables our steps make (a trigger or view of a stranger's would run in our name), whole in itself.
 * @throws LotfileError `file refused`, `lot newer`, `lot damaged`.
 */
export function checkDatabase(file: string, about: string): void {
  let db: Database.Database | undefined;
  try {
    db = new Database(file, { readonly: true, fileMustExist: true });
    db.pragma('trusted_schema = OFF');
    db.pragma('cell_size_check = ON');
    if (db.pragma('application_id', { simple: true }) !== applicationId) throw badBundle('it holds no lot.', about);
    const known = knownMigrations();
    const pending = pendingMigrations(db, known);
    const ours = schemaAfter(known.slice(0, known.length - pending.length));
    const theirs = schemaOf(db);
    if (ours.length !== theirs.length || ours.some((thing, n) => thing !== theirs[n])) {
      throw badBundle('the tables of its lot are not those of this program.', about);
    }
    if (db.pragma('integrity_check(1)', { simple: true }) !== 'ok') throw badBundle('its lot is damaged.', about);
    if (db.prepare('SELECT 1 FROM pragma_foreign_key_check LIMIT 1').get() !== undefined) {
      throw badBundle('rows of its lot rest on nothing.', about);
    }
  } catch (error) {
    if (error instanceof LotfileError) throw error;
    throw badBundle('its lot can’t be read.', about);
  } finally {
    db?.close();
  }
}
