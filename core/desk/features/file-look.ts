import { closeSync, openSync, readSync } from 'node:fs';
import { type FileSort, sniff, sniffLength } from '../../intake/sniff.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { AtLot } from '../context.ts';
import type { FileLook, ShownPlace } from '../contract/screen-answers.ts';
import type { Offered } from '../tickets.ts';

const pictures: readonly FileSort[] = ['jpeg', 'png', 'gif', 'webp', 'tiff', 'heic', 'bmp'];

/** What a file is, told from its first bytes; only these are read. */
export function sortOf(path: string): FileSort {
  const head = Buffer.alloc(sniffLength);
  const file = openSync(path, 'r');
  try {
    return sniff(head.subarray(0, readSync(file, head)));
  } finally {
    closeSync(file);
  }
}

/**
 * The same of a file a person named.
 * @throws LotfileError `file refused` where it is gone, a folder, or can't be opened.
 */
export function sortOfNamed({ path, name }: Offered): FileSort {
  try {
    return sortOf(path);
  } catch (cause) {
    throw new LotfileError('file refused', `"${name}" can't be opened: it is gone, a folder, or closed to you.`, {
      about: name,
      next: 'Choose the file itself, where it lies now.',
      cause,
    });
  }
}

/** How a window can show it; a file that can't be opened is something else. */
export function lookOf(path: string): FileLook {
  try {
    const sort = sortOf(path);
    if (sort === 'pdf') return 'pdf';
    return pictures.includes(sort) ? 'picture' : 'other';
  } catch {
    return 'other';
  }
}

/** The ticket of a rendition's bytes: the same at every asking, so that a window fetches them once. */
export function renditionTicket(sha: string, at: AtLot): string {
  return at.tickets.steady(at.lot.renditionPath(sha), `${sha.slice(0, 12)}.pdf`);
}

/** A folder of the lot to be shown to the person; its ticket is the same at every asking. */
export function shownPlace(path: string, at: AtLot): ShownPlace {
  return { path, ticket: at.tickets.steady(path) };
}
