import { closeSync, fstatSync, openSync, readSync, rmSync, writeSync } from 'node:fs';
import type { KeepContext } from '../keep-context.ts';
import { normalise } from '../normalise.ts';

export const damagedInside = 'it is damaged inside';
const notSaved = 'it could not be saved anew';

/**
 * The rewriter takes object numbers above a third of the file's length for damage; the second reader keeps the
 * numbers a file had, however few objects are left. Spaces at the end make room.
 */
function makeRoom(path: string): void {
  const fd = openSync(path, 'r+');
  try {
    const length = fstatSync(fd).size;
    const tail = Buffer.alloc(Math.min(length, 2048));
    readSync(fd, tail, 0, tail.length, length - tail.length);
    const text = tail.toString('latin1');
    const size = Number(/\/Size (\d+)/.exec(text)?.[1] ?? 0);
    const ending = /startxref\s+\d+\s+%%EOF\s*$/.exec(text)?.[0];
    if (ending === undefined || size > 10_000_000 || length > size * 4) return;
    writeSync(fd, `\n${' '.repeat(size * 4 - length)}\n${ending}`, length);
  } finally {
    closeSync(fd);
  }
}

/** Saved by the second reader into a scrap, then rewritten. */
export async function viaScrap(context: KeepContext, save: (scrap: string) => boolean): Promise<string | undefined> {
  const scrap = context.scrap(1);
  try {
    if (!save(scrap)) return notSaved;
    makeRoom(scrap);
    return (await normalise(scrap, context.job.output)) ? undefined : damagedInside;
  } finally {
    rmSync(scrap, { force: true });
  }
}
