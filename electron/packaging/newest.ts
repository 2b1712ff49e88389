import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

const aside = new Set(['node_modules', 'dist', 'out', 'papers']);

/** The newest change (milliseconds) under files and folders; 0 where there is none. */
export function newestUnder(paths: readonly string[]): number {
  let newest = 0;
  for (const path of paths) {
    const stats = statSync(path, { throwIfNoEntry: false });
    if (stats === undefined) continue;
    const inside = stats.isDirectory()
      ? newestUnder(
          readdirSync(path)
            .filter((name) => !aside.has(name))
            .map((name) => join(path, name)),
        )
      : stats.mtimeMs;
    newest = Math.max(newest, inside);
  }
  return newest;
}

/** Whether what was built is missing or older than what it is built from. */
export function isStale(built: string, sources: readonly string[]): boolean {
  const made = statSync(built, { throwIfNoEntry: false })?.mtimeMs;
  return made === undefined || made < newestUnder(sources);
}
