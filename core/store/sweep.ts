import { existsSync, lstatSync, readdirSync, statSync } from 'node:fs';
import { join, relative } from 'node:path';
import { sweepCached } from './cache.ts';
import { removeFile } from './disk.ts';
import type { Ledger } from './ledger.ts';
import { finishPurges } from './purge-bytes.ts';
import { fileTrouble } from './trouble.ts';

/** Pages of ours that lost their row in a crash are younger than this; older ones were put there by somebody. */
const youngDays = 2;

function isYoung(path: string, now: Date): boolean {
  return now.getTime() - statSync(path).mtimeMs < youngDays * 86_400_000;
}

function rowlessRenditions(ledger: Ledger): readonly string[] {
  const known = new Set(ledger.db.prepare<[], string>('SELECT sha FROM rendition WHERE purged = 0').pluck().all());
  return readdirSync(join(ledger.folder, 'renditions'), { recursive: true, encoding: 'utf8' })
    .filter((name) => {
      const sha = /(?:^|[\\/])([0-9a-f]{64})\.pdf$/.exec(name)?.[1];
      return sha !== undefined && !known.has(sha);
    })
    .map((name) => join('renditions', name))
    .filter((name) => isYoung(join(ledger.folder, name), ledger.now()));
}

/** A packet's folder that got no file before the program ended. */
function emptyPacketFolders(ledger: Ledger): readonly string[] {
  const known = new Set(ledger.db.prepare<[], string>('SELECT folder FROM packet').pluck().all());
  return readdirSync(join(ledger.folder, 'packets'))
    .filter((name) => !known.has(name))
    .map((name) => join('packets', name))
    .filter((name) => {
      const path = join(ledger.folder, name);
      return statSync(path).isDirectory() && readdirSync(path).length === 0;
    });
}

/** A file that was being put aside has both its names when the program ends in between: the act was not told as done. */
function twinsAside(ledger: Ledger): readonly string[] {
  const table = join(ledger.folder, 'table');
  const aside = join(table, 'put-aside');
  if (!existsSync(aside)) return [];
  // A name may be gone since, or a link to nowhere; and a number cut short would take one file for another.
  const looked = (path: string) => lstatSync(path, { bigint: true, throwIfNoEntry: false });
  const here = new Set(readdirSync(table).map((name) => looked(join(table, name))?.ino));
  return readdirSync(aside)
    .map((name) => join(aside, name))
    .filter((path) => {
      const seen = looked(path);
      return seen?.isFile() === true && seen.nlink > 1n && here.has(seen.ino);
    })
    .map((path) => relative(ledger.folder, path));
}

/**
 * Removes what interrupted work left: what stands in working/ and was not handed out by this program (the lease says
 * nobody else works there), young pages without a row, which can be made again, and the rest of what was removed for
 * good. An original without a row is never removed: it may be the only one.
 */
export function sweepLot(ledger: Ledger): readonly string[] {
  ledger.mustWrite();
  try {
    const working = readdirSync(join(ledger.folder, 'working'))
      .map((name) => join('working', name))
      .filter((name) => !ledger.issued.has(join(ledger.folder, name)));
    const swept = [...working, ...rowlessRenditions(ledger), ...emptyPacketFolders(ledger), ...twinsAside(ledger)];
    for (const name of swept) removeFile(join(ledger.folder, name), { recursive: true });
    sweepCached(ledger);
    finishPurges(ledger);
    return swept;
  } catch (error) {
    throw fileTrouble(error, ledger.folder, 'Clearing up the working folder');
  }
}
