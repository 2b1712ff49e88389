import type { Edition, EditionId } from '../vocabulary/lot.ts';
import { linkedTo } from './current.ts';
import type { Entry } from './lot-index.ts';
import { type Asked, indexLot, type Standpoint } from './standpoint.ts';
import { carrierOf, extendersOf } from './validity.ts';

/**
 * The editions without which this one doesn't say or last what we count on: its amendments, the extensions that
 * moved a clock, the next period that carries it on. An office that is shown the paper has to be shown these too.
 */
export function ridersAt(at: Standpoint, entry: Entry, path: readonly EditionId[] = []): readonly Entry[] {
  if (path.includes(entry.edition.id)) return [];
  const next = carrierOf(at, entry);
  const own = [...linkedTo(at, entry, 'amends'), ...extendersOf(at, entry)].sort(oldestFirst);
  const carried = next === undefined ? [] : [next, ...ridersAt(at, next, [...path, entry.edition.id])];
  const all = new Map([...own, ...carried].map((rider) => [rider.edition.id, rider]));
  all.delete(entry.edition.id);
  return [...all.values()];
}

function oldestFirst(a: Entry, b: Entry): number {
  return a.dated < b.dated ? -1 : a.dated > b.dated ? 1 : a.order - b.order;
}

/** The riders of an edition of the lot, oldest first, a next period last; none where the lot doesn't hold it. */
export function ridersOf(edition: Edition, asked: Asked): readonly EditionId[] {
  const at = indexLot(asked);
  const entry = at.index.entries.get(edition.id);
  return entry === undefined ? [] : ridersAt(at, entry).map((rider) => rider.edition.id);
}
