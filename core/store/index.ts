import { lotOf } from './lot.ts';
import { makeLot, openFolder } from './lot-folder.ts';
import type { CreateOptions, Lot, OpenOptions } from './lot-model.ts';

export * from './keeping-model.ts';
export * from './lot-model.ts';

/**
 * Begins a lot in a new or empty folder and holds it.
 * @throws LotfileError `wrong use` where there is one already, `disk` where the folder can't be written.
 */
export function createLot(folder: string, options: CreateOptions): Lot {
  return lotOf(makeLot(folder, options));
}

/**
 * Opens a lot folder and holds it until closed. `sweep` it then: work may have been interrupted.
 * @throws LotfileError `not found`, `lot busy` (names who holds it), `lot newer`, `lot damaged`, `disk`.
 */
export function openLot(folder: string, options: OpenOptions): Lot {
  return lotOf(openFolder(folder, options));
}
