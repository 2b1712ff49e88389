import { type Dirent, existsSync, readdirSync, realpathSync } from 'node:fs';
import { join } from 'node:path';

function foldersIn(base: string): readonly Dirent[] {
  try {
    return readdirSync(base, { withFileTypes: true }).filter((entry) => entry.isDirectory());
  } catch {
    // Not there yet, or closed to us: nothing is offered from it, and opening a lot by hand says why it can't be.
    return [];
  }
}

/** Its database is there; whether it can be opened is told on opening. */
export function isLot(path: string): boolean {
  return existsSync(join(path, 'lot.sqlite'));
}

/**
 * Lots that lie where lots lie on this computer and are not in the list, nor were left out of it: copied there, or moved from another one. Only
 * looked for by name; nothing is opened. The window never names a folder, so this is how a browser comes by one.
 */
export function lotsFound(base: string, known: ReadonlySet<string>): readonly { name: string; path: string }[] {
  return foldersIn(base)
    .map(({ name }) => ({ name, path: join(base, name) }))
    .filter(({ path }) => isLot(path))
    .map(({ name, path }) => ({ name, path: realpathSync.native(path) }))
    .filter(({ path }) => !known.has(path))
    .slice(0, 30);
}
