import { existsSync } from 'node:fs';
import { basename, join, parse } from 'node:path';
import { linkFile, removeFile, renameFile, syncFolder } from './disk.ts';

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

/** Codes of a disk that knows no second names for a file. */
const noLinks = ['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK', 'EXDEV'];

function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : '';
}

/**
 * Gives the file its new name in one step, so that two programs can't both take it and no half a file ever bears it;
 * false where the name is taken.
 */
export function takeName(from: string, to: string): boolean {
  if (existsSync(to)) return false;
  try {
    linkFile(from, to);
    removeFile(from);
    return true;
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    if (!noLinks.includes(codeOf(error))) throw error;
  }
  // The lease keeps our own programs apart here.
  renameFile(from, to);
  return true;
}

/** Moves a file into a folder under its name, or the next that is free ("deed (2).pdf"); the name it got. */
export function moveInto(from: string, folder: string, name: string): string {
  const { name: stem, ext } = parse(name);
  for (let n = 1; ; n += 1) {
    const free = n === 1 ? name : `${stem} (${n})${ext}`;
    if (!takeName(from, join(folder, free))) continue;
    syncFolder(folder);
    return free;
  }
}
