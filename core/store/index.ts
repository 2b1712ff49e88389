import type { Restored } from './bundle/restore-bundle.ts';
import type { LongWork } from './long-work.ts';
import { lotOf } from './lot.ts';
import { makeLot, openFolder } from './lot-folder.ts';
import type { CreateOptions, Lot, OpenOptions } from './lot-model.ts';
import type { Mended } from './mend/mend-lot.ts';

export type { MergeConflictShown, MergeDone } from './bundle/merge-bundle.ts';
export type { Restored } from './bundle/restore-bundle.ts';
export type { BundleWritten } from './bundle/write-bundle.ts';
export * from './keeping-model.ts';
export * from './lot-model.ts';
export type { Mended } from './mend/mend-lot.ts';

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

/**
 * Builds the database of a damaged lot anew from what can be read and from its copies. The lot must be closed.
 * @throws LotfileError `lot damaged` where nothing of it can be had, `lot busy`, `not found`, `disk`; nothing is changed then.
 */
export async function mendLot(
  folder: string,
  given: { readonly host: string; readonly now?: (() => Date) | undefined },
): Promise<Mended> {
  const { mendLot: mend } = await import('./mend/mend-lot.ts');
  return mend(folder, given.host, (given.now ?? (() => new Date()))());
}

/**
 * Makes a lot folder from a bundle, every byte compared; it is not opened yet.
 * @param folder a new or empty folder
 * @throws LotfileError `file refused`, `lot newer`, `wrong use`, `disk`, `stopped`; nothing is left behind then.
 */
export async function restoreBundle(
  bundle: { readonly path: string; readonly name: string },
  folder: string,
  work: LongWork,
): Promise<Restored> {
  const { restoreBundle: restore } = await import('./bundle/restore-bundle.ts');
  return restore(bundle.path, folder, { ...work, name: bundle.name });
}
