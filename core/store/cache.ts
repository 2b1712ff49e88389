import { readdirSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { LotfileError } from '../vocabulary/errors.ts';
import { removeFile, renameFile, syncFile } from './disk.ts';
import type { Ledger } from './ledger.ts';
import { makeFolder } from './places.ts';
import { fileTrouble } from './trouble.ts';

/**
 * What was worked out of a file and can be worked out again: the words read off it, its small picture. It lies in
 * cache/ by the hash of the file as it came, whether that is kept already or still on the table; whoever throws the
 * folder away loses time and nothing else.
 */

/** What is cached of a file nobody kept goes after this long. */
const unkeptDays = 30;

function cacheFile(ledger: Ledger, sha: string, ending: string): string {
  if (!/^[0-9a-f]{64}$/.test(sha) || !/^[a-z0-9-]+\.[a-z]+$/.test(ending)) {
    throw new LotfileError('internal', 'Nothing is cached under such a name.', { about: `${sha}.${ending}` });
  }
  return join(ledger.folder, 'cache', sha.slice(0, 2), `${sha}.${ending}`);
}

/** Where it lies; undefined where it has to be worked out (again). */
export function cachedPath(ledger: Ledger, sha: string, ending: string): string | undefined {
  const path = cacheFile(ledger, sha, ending);
  return statSync(path, { throwIfNoEntry: false })?.isFile() === true ? path : undefined;
}

/** Where it lies of every file of which it was worked out, by the file's hash. */
export function cachedOf(ledger: Ledger, ending: string): ReadonlyMap<string, string> {
  const folder = join(ledger.folder, 'cache');
  const found = new Map<string, string>();
  for (const name of cachedNames(folder)) {
    if (!name.endsWith(`.${ending}`)) continue;
    found.set(basename(name).slice(0, 64), join(folder, name));
  }
  return found;
}

/** Moves a finished file from the working folder into the cache; its path there. */
export function keepCached(ledger: Ledger, temporary: string, at: { sha: string; ending: string }): string {
  ledger.mustWrite();
  const path = cacheFile(ledger, at.sha, at.ending);
  try {
    makeFolder(join(ledger.folder, 'cache'));
    makeFolder(dirname(path));
    // A power cut must not leave a name without its bytes.
    syncFile(temporary);
    renameFile(temporary, path);
    return path;
  } catch (error) {
    throw fileTrouble(error, at.ending, 'Noting what was read');
  } finally {
    removeFile(temporary);
    ledger.issued.delete(temporary);
  }
}

function cachedNames(folder: string): readonly string[] {
  if (statSync(folder, { throwIfNoEntry: false }) === undefined) return [];
  return readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) => /[0-9a-f]{64}\./.test(name));
}

/** A file removed for good leaves nothing here either. */
export function forgetCached(ledger: Ledger, sha: string): void {
  const folder = join(ledger.folder, 'cache');
  for (const name of cachedNames(folder)) if (name.includes(sha)) removeFile(join(folder, name));
}

/** Drops what belongs to files that were removed for good, or never kept and gone from view for long. */
export function sweepCached(ledger: Ledger): void {
  const folder = join(ledger.folder, 'cache');
  const purged = ledger.db.prepare<[string], number>('SELECT purged FROM file WHERE sha = ?').pluck();
  for (const name of cachedNames(folder)) {
    const path = join(folder, name);
    const old = ledger.now().getTime() - statSync(path).mtimeMs > unkeptDays * 86_400_000;
    const sha = /([0-9a-f]{64})\./.exec(name)?.[1] ?? '';
    const known = purged.get(sha);
    if (known === 1 || (old && known === undefined)) removeFile(path);
  }
}
