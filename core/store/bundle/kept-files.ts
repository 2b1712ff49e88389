import { existsSync, readdirSync, statSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import type { Ledger } from '../ledger.ts';
import { originalFile, renditionFile } from '../places.ts';
import { calendarName, isOurPath } from './manifest.ts';

/** A file that belongs into a bundle. */
export interface ToBundle {
  /** With "/", from the lot folder. */
  readonly path: string;
  readonly disk: string;
  readonly bytes: number;
  /** Kept under this hash; undefined for what no row knows by hash (the table). */
  readonly sha256: string | undefined;
  /** The name the person knows. */
  readonly name: string;
}

interface Row {
  readonly sha: string;
  readonly name: string;
}

function rowsOf(ledger: Ledger): readonly { readonly disk: string; readonly sha256: string; readonly name: string }[] {
  const { db, folder } = ledger;
  const originals = db
    .prepare<[], Row & { ext: string }>('SELECT sha, name, ext FROM file WHERE purged = 0')
    .all()
    .map((row) => ({ disk: originalFile(folder, row), sha256: row.sha, name: row.name }));
  const renditions = db
    .prepare<[], Row>(
      'SELECT rendition.sha, name FROM rendition JOIN file ON file.sha = source WHERE rendition.purged = 0',
    )
    .all()
    .map((row) => ({ disk: renditionFile(folder, row.sha), sha256: row.sha, name: `pages of ${row.name}` }));
  const packets = db
    .prepare<[], Row & { folder: string }>(
      'SELECT sha256 AS sha, name, folder FROM packet_file JOIN packet ON packet.id = packet WHERE purged = 0',
    )
    .all()
    .map((row) => ({ disk: join(folder, 'packets', row.folder, row.name), sha256: row.sha, name: row.name }));
  return [...originals, ...renditions, ...packets];
}

/** What lies on the table is nowhere else, so it goes along; so does the memory of the calendar. */
function loose(folder: string): readonly { readonly disk: string; readonly name: string }[] {
  const table = join(folder, 'table');
  const files = existsSync(table)
    ? readdirSync(table, { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile())
        .map((entry) => ({ disk: join(entry.parentPath, entry.name), name: entry.name }))
    : [];
  const calendar = join(folder, calendarName);
  return existsSync(calendar) ? [...files, { disk: calendar, name: calendarName }] : files;
}

/** Everything of a lot beside its database, by path; and sentences about what is lost or can't go along. */
export function filesToBundle(ledger: Ledger): {
  readonly files: readonly ToBundle[];
  readonly missing: readonly string[];
} {
  const missing: string[] = [];
  const all: { disk: string; sha256?: string; name: string }[] = [...rowsOf(ledger), ...loose(ledger.folder)];
  const files = new Map<string, ToBundle>();
  for (const { disk, sha256, name } of all) {
    const path = relative(ledger.folder, disk).split(sep).join('/');
    const there = statSync(disk, { throwIfNoEntry: false });
    if (there?.isFile() !== true) missing.push(`"${name}" is missing from the lot folder; run verify.`);
    else if (isOurPath(path)) files.set(path, { path, disk, bytes: there.size, sha256, name });
    else missing.push(`"${name}" does not go along: other systems can't have a file of that name. Rename it.`);
  }
  return { files: [...files.values()].toSorted((a, b) => (a.path < b.path ? -1 : 1)), missing };
}
