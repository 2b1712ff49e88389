import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Database } from 'better-sqlite3';
import { LotfileError } from '../vocabulary/errors.ts';
import { aboutTo } from './disk.ts';

/** One forward step of the lot's tables. */
export interface Migration {
  /** File name: "0001-lot.sql". */
  readonly name: string;
  readonly sql: string;
}

interface Recorded {
  readonly name: string;
  readonly sha256: string;
}

export function hashText(text: string): string {
  return createHash('sha256').update(text).digest('hex');
}

/** The migrations this program knows, in order. */
export function knownMigrations(): readonly Migration[] {
  const folder = fileURLToPath(new URL('./migrations/', import.meta.url));
  return readdirSync(folder)
    .filter((name) => /^\d{4}-[a-z-]+\.sql$/.test(name))
    .sort()
    .map((name) => ({ name, sql: readFileSync(`${folder}/${name}`, 'utf8') }));
}

function recorded(db: Database): readonly Recorded[] {
  const table = db.prepare("SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = 'migration'").get();
  if (table === undefined) return [];
  return db.prepare<[], Recorded>('SELECT name, sha256 FROM migration ORDER BY seq').all();
}

/**
 * The migrations still to run.
 * @throws LotfileError `lot newer` where the lot went steps we don't know, `lot damaged` where a step differs from ours.
 */
export function pendingMigrations(db: Database, known: readonly Migration[]): readonly Migration[] {
  const done = recorded(db);
  const names = new Set(known.map((step) => step.name));
  const strange = done.find((step) => !names.has(step.name));
  if (strange !== undefined) {
    throw new LotfileError('lot newer', 'This lot was last kept by a newer version of the program.', {
      about: strange.name,
      next: 'Open it with that version or a newer one; nothing was changed.',
    });
  }
  for (const [i, step] of done.entries()) {
    const ours = known[i];
    if (ours === undefined || ours.name !== step.name || hashText(ours.sql) !== step.sha256) {
      throw new LotfileError('lot damaged', `The lot's history of tables differs at "${step.name}".`, {
        about: 'lot.sqlite',
        next: 'Work on from your newest backup, and keep this folder as it is.',
      });
    }
  }
  return known.slice(done.length);
}

function runStep(db: Database, step: Migration): void {
  db.exec(step.sql);
  db.prepare('INSERT INTO migration (name, sha256) VALUES (?, ?)').run(step.name, hashText(step.sql));
  const broken = db.prepare('SELECT * FROM pragma_foreign_key_check LIMIT 1').get();
  if (broken !== undefined) {
    throw new LotfileError('internal', `"${step.name}" would leave rows that rest on nothing; it was not done.`);
  }
  aboutTo('commit', db.name);
}

/**
 * Runs each step and records it in one transaction of its own: a step that fails leaves the lot as it was before it.
 * Foreign keys are checked at the end of a step, not within, so that a step may build a table anew
 * (https://sqlite.org/lang_altertable.html#otheralter).
 */
export function runMigrations(db: Database, pending: readonly Migration[]): void {
  db.exec(
    'CREATE TABLE IF NOT EXISTS migration (seq INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE, sha256 TEXT NOT NULL) STRICT',
  );
  db.pragma('foreign_keys = OFF');
  try {
    for (const step of pending) db.transaction(() => runStep(db, step)).immediate();
  } finally {
    db.pragma('foreign_keys = ON');
  }
}
