import { closeSync, existsSync, openSync, renameSync, rmSync } from 'node:fs';
import { basename, join, parse } from 'node:path';
import { syncFolder } from './places.ts';

/** A name any system takes, as near to the person's own as may be. */
export function plainName(name: string): string {
  const plain = basename(name.replaceAll('\\', '/'))
    .normalize('NFC')
    .replace(/[/:*?"<>|\p{Cc}]/gu, ' ')
    .replace(/^[.\s]+|[.\s]+$/g, '');
  const { name: stem, ext } = parse(plain);
  // "put-aside" is the folder beside the files of the table.
  const reserved = /^(con|prn|aux|nul|com\d|lpt\d|put-aside)$/i.test(stem) ? `${stem} paper` : stem;
  const short = [...reserved].slice(0, 120).join('').trim();
  return `${short === '' ? 'paper' : short}${ext.slice(0, 12)}`;
}

/** Takes a name that is free, in one step, so that two programs can't both take it: "deed.pdf", "deed (2).pdf" ... */
function takeName(folder: string, name: string): string {
  const { name: stem, ext } = parse(name);
  for (let n = 1; ; n += 1) {
    const free = n === 1 ? name : `${stem} (${n})${ext}`;
    const path = join(folder, free);
    if (existsSync(path)) continue;
    try {
      closeSync(openSync(path, 'wx'));
      return free;
    } catch (error) {
      if (!existsSync(path)) throw error;
    }
  }
}

/** Moves a file into a folder under its name, or the next that is free; the name it got. */
export function moveInto(from: string, folder: string, name: string): string {
  const taken = takeName(folder, name);
  try {
    renameSync(from, join(folder, taken));
  } catch (error) {
    rmSync(join(folder, taken), { force: true });
    throw error;
  }
  syncFolder(folder);
  return taken;
}
