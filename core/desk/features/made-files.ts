import { rmSync } from 'node:fs';
import { mkdir, rename, stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { Lot } from '../../store/index.ts';
import type { AtLot } from '../context.ts';
import type { MadeFile } from '../contract/screen-answers.ts';

/** Files the program makes for the owner and doesn't keep: they lie in the lot's working folder until it is closed. */
const folders = new WeakMap<Lot, Map<string, string>>();

async function folderFor(key: string, lot: Lot): Promise<string> {
  const made = folders.get(lot) ?? new Map<string, string>();
  folders.set(lot, made);
  const known = made.get(key);
  if (known !== undefined) return known;
  const folder = lot.temporaryPath();
  await mkdir(folder);
  made.set(key, folder);
  return folder;
}

/**
 * Puts a finished file where its ticket can stay the same from making to making.
 * @param key names what it was made for; making it again takes the place of the one before.
 */
export async function offerMade(made: { path: string; name: string; key: string }, at: AtLot): Promise<MadeFile> {
  let target = join(await folderFor(made.key, at.lot), made.name);
  try {
    await rename(made.path, target);
  } catch {
    // The one before is open in a reader that lets nobody replace it (Windows): the new one gets a place of its own.
    folders.get(at.lot)?.delete(made.key);
    target = join(await folderFor(made.key, at.lot), made.name);
    await rename(made.path, target);
  }
  return { ticket: at.tickets.steady(target, made.name), name: made.name, bytes: (await stat(target)).size };
}

/**
 * Removes everything that was made for the owner so far: a draft or a backup may hold a file that is to be gone.
 * @returns sentences about what could not be removed.
 */
export function forgetMade({ lot }: AtLot): readonly string[] {
  const notes: string[] = [];
  for (const [key, folder] of folders.get(lot) ?? []) {
    try {
      rmSync(folder, { recursive: true, force: true });
      folders.get(lot)?.delete(key);
    } catch {
      notes.push('A file made for you is open elsewhere and may still hold it; it goes when the lot is closed.');
    }
  }
  return notes;
}
