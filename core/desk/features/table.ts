import { basename, join } from 'node:path';
import { LotfileError } from '../../vocabulary/errors.ts';
import { type AtLot, onLot } from '../context.ts';
import { requests } from '../contract/requests.ts';
import type { LaidDownAnswer, TableItem } from '../contract/table-answers.ts';
import { shownPlace } from './file-look.ts';
import { itemOf } from './intake/table-items.ts';
import { openHolders } from './intake/unpack.ts';

/** On the table: what came in and is not kept yet. */

/** Told in place of an act: what lies on the table is no part of the history. */
const changed = 'table' as const;

export const table = onLot(requests.table, async (_input, at) => {
  const items: TableItem[] = [];
  for (const file of await at.lot.listTable()) items.push(await itemOf(file, at));
  return {
    aside: at.lot.listAside(),
    items,
    folder: `the folder "table" in "${basename(at.lot.folder)}"`,
    place: shownPlace(join(at.lot.folder, 'table'), at),
  };
});

export const layDown = onLot(requests['lay-down'], async ({ files }, at): Promise<LaidDownAnswer> => {
  const laid: LaidDownAnswer['laid'][number][] = [];
  const refused: LaidDownAnswer['refused'][number][] = [];
  for (const [done, ticket] of files.entries()) {
    at.signal.throwIfAborted();
    const { path, name } = at.tickets.look(ticket);
    at.progress({ what: name, done, of: files.length });
    try {
      const file = await at.lot.layOn(path, name);
      laid.push({ item: file.name, name: file.name, bytes: file.bytes, sha256: file.sha256, already: file.already });
    } catch (error) {
      refused.push({ file: name, error: LotfileError.from(error).toJSON() });
    }
  }
  const opened = await openHolders(laid, at);
  return { act: changed, refused, ...opened };
});

export const takeUp = onLot(requests['take-up'], ({ item }, at) => ({
  act: changed,
  item,
  name: at.lot.takeUp(item),
}));

export const putAside = onLot(requests['put-aside'], ({ item }, at) => ({
  act: changed,
  item,
  name: at.lot.putAside(item),
}));

/** A file of the table that somebody may still be writing to can't be kept yet. */
export function refuseArriving(path: string, at: AtLot): void {
  const file = at.lot.tableFileAt(path);
  if (file?.arriving !== true) return;
  throw new LotfileError('file refused', `"${file.name}" is still being written.`, {
    about: file.name,
    next: 'Wait until it has arrived whole, then keep it.',
  });
}

/**
 * What was kept goes off the table. A file that can't be removed (open elsewhere) stays and is told: it is kept all
 * the same, and the table says so.
 * @returns sentences about those that stayed.
 */
export async function clearKept(paths: Iterable<string>, at: AtLot): Promise<readonly string[]> {
  const notes: string[] = [];
  for (const path of new Set(paths)) {
    if (at.lot.tableFileAt(path) === undefined) continue;
    try {
      await at.lot.takeOff(path);
    } catch (error) {
      const { message } = LotfileError.from(error);
      notes.push(`Kept, but its file is still on the table. ${message} Put it aside when nothing uses it any more.`);
    }
  }
  return notes;
}
