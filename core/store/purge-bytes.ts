import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { LotfileError } from '../vocabulary/errors.ts';
import { forgetCached } from './cache.ts';
import { allCopies } from './copies.ts';
import { removeFile } from './disk.ts';
import type { Ledger } from './ledger.ts';
import { hashFile, originalFile, renditionFile } from './places.ts';
import { fileTrouble } from './trouble.ts';

/** What is to go from the disk, with the name the person knows it by. */
export interface Doomed {
  readonly path: string;
  readonly name: string;
}

/**
 * Removes each; one that can't be removed keeps none of the others.
 * @returns what stayed, in sentences: it is tried again whenever the lot is opened.
 */
export function removeEach(doomed: readonly Doomed[]): readonly string[] {
  const left = new Map<string, string>();
  for (const { path, name } of doomed) {
    try {
      removeFile(path, { recursive: true });
    } catch (error) {
      const { message } = fileTrouble(error, name, `Removing "${name}" from the disk`);
      left.set(
        name,
        `${message} Close what has it open, then remove it once more; it is tried again at every opening.`,
      );
    }
  }
  return [...left.values()];
}

interface PurgedRows {
  readonly files: readonly { readonly sha: string; readonly ext: string; readonly name: string }[];
  readonly renditions: readonly { readonly sha: string; readonly name: string }[];
  readonly packets: readonly { readonly folder: string; readonly title: string }[];
}

function purgedRows({ db }: Ledger): PurgedRows {
  return {
    files: db.prepare<[], PurgedRows['files'][number]>('SELECT sha, ext, name FROM file WHERE purged = 1').all(),
    renditions: db
      .prepare<[], PurgedRows['renditions'][number]>(
        `SELECT rendition.sha, file.name FROM rendition JOIN file ON file.sha = source WHERE rendition.purged = 1`,
      )
      .all(),
    packets: db
      .prepare<[], PurgedRows['packets'][number]>(
        `SELECT folder, title FROM packet JOIN packet_file ON packet_file.packet = packet.id
         GROUP BY folder HAVING min(purged) = 1`,
      )
      .all(),
  };
}

/** Everything in the lot folder that rows say is gone for good: the file, its pages, packets that held it, copies. */
function doomedIn(ledger: Ledger): readonly Doomed[] {
  const { folder } = ledger;
  const { files, renditions, packets } = purgedRows(ledger);
  return [
    ...files.map((row) => ({ path: originalFile(folder, row), name: row.name })),
    ...renditions.map(({ sha, name }) => ({ path: renditionFile(folder, sha), name: `pages of ${name}` })),
    ...packets.map((row) => ({ path: join(folder, 'packets', row.folder), name: row.title })),
  ].filter(({ path }) => existsSync(path));
}

function copiesFromBefore(ledger: Ledger): readonly Doomed[] {
  const last = ledger.db.prepare<[], string>('SELECT at FROM purge ORDER BY seq DESC LIMIT 1').pluck().get();
  if (last === undefined) return [];
  return allCopies(ledger.folder)
    .filter((path) => statSync(path).mtimeMs < Date.parse(last))
    .map((path) => ({ path, name: 'a safety copy' }));
}

/** Goes on where a removing for good was broken off or refused by the disk. */
export function finishPurges(ledger: Ledger): readonly string[] {
  return removeEach([...doomedIn(ledger), ...copiesFromBefore(ledger)]);
}

/** Sizes and hashes of the files, and of packets' files that were removed with them: copies of both may lie about. */
function bytesGone(
  { db }: Ledger,
  shas: readonly string[],
): readonly { readonly sha: string; readonly bytes: number }[] {
  return db
    .prepare<[string], { sha: string; bytes: number }>(
      `SELECT sha, bytes FROM file WHERE sha IN (SELECT value FROM json_each(?))
       UNION SELECT sha256, bytes FROM packet_file WHERE purged = 1`,
    )
    .all(JSON.stringify(shas));
}

/** The very same bytes in these folders, under whatever name. */
async function twinsIn(
  folders: readonly string[],
  gone: readonly { readonly sha: string; readonly bytes: number }[],
): Promise<readonly Doomed[]> {
  const sizes = new Set(gone.map(({ bytes }) => bytes));
  const shas = new Set(gone.map(({ sha }) => sha));
  const files = folders
    .filter((folder) => existsSync(folder))
    .flatMap((folder) => readdirSync(folder, { recursive: true, withFileTypes: true }))
    .filter((entry) => entry.isFile())
    .map((entry) => ({ path: join(entry.parentPath, entry.name), name: entry.name }))
    .filter(({ path }) => sizes.has(statSync(path).size));
  const twins: Doomed[] = [];
  for (const file of files) if (shas.has((await hashFile(file.path)).sha256)) twins.push(file);
  return twins;
}

export interface Elsewhere {
  /** Folders of packets that no row knows any more. */
  readonly undone: readonly Doomed[];
  /** Folders beside the lot in which the same bytes may lie. */
  readonly also: readonly string[];
}

/**
 * Removes the bytes of files whose rows were wiped, wherever in the lot folder they lie; safety copies of the database
 * go too, for the words stand in them.
 * @returns sentences about what could not be removed.
 */
export async function removeBytes(
  ledger: Ledger,
  shas: readonly string[],
  { undone, also }: Elsewhere,
): Promise<readonly string[]> {
  const renditions = ledger.db
    .prepare<[string], string>('SELECT sha FROM rendition WHERE source IN (SELECT value FROM json_each(?))')
    .pluck()
    .all(JSON.stringify(shas));
  const copies = allCopies(ledger.folder).map((path) => ({ path, name: 'a safety copy' }));
  const left = removeEach([...doomedIn(ledger), ...undone, ...copies]);
  try {
    for (const sha of [...shas, ...renditions]) forgetCached(ledger, sha);
    const twins = await twinsIn([join(ledger.folder, 'table'), ...also], bytesGone(ledger, shas));
    return [...left, ...removeEach(twins)];
  } catch (error) {
    return [...left, LotfileError.from(fileTrouble(error, 'table', 'Looking for it on the table')).message];
  }
}
