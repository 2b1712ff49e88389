import type { Day } from '../../vocabulary/days.ts';
import type { Identity, LotView } from '../../vocabulary/lot.ts';

/** Names of one sort that hold on a day, newest first; with none dated so, all of them. */
export function identitiesOn(lot: LotView, sort: Identity['sort'], day: Day): readonly string[] {
  const all = lot.identities.filter((one) => one.sort === sort);
  const on = all.filter(({ from, to }) => (from === undefined || from <= day) && (to === undefined || to >= day));
  const held = on.length === 0 ? all : on;
  const newest = [...held].sort((a, b) => (b.from ?? '').localeCompare(a.from ?? ''));
  return [...new Set(newest.map(({ text }) => text))];
}

/** Owners as printed, one by one; of the spellings confirmed to be one person only the first. */
export function ownerLines(lot: LotView, day: Day): readonly string[] {
  return without(lot, 'owner', identitiesOn(lot, 'owner', day));
}

/** The same side by side. */
export function ownersOn(lot: LotView, day: Day): string {
  return ownerLines(lot, day).join(', ');
}

/** The newest place name that holds on the day. */
export function placeOn(lot: LotView, day: Day): string {
  return identitiesOn(lot, 'place', day)[0] ?? '';
}

export function parcelOn(lot: LotView, day: Day): string {
  return without(lot, 'parcel', identitiesOn(lot, 'parcel', day)).join(', ');
}

function without(lot: LotView, sort: Identity['sort'], texts: readonly string[]): readonly string[] {
  const same = (a: string, b: string): boolean =>
    lot.sameAs.some((one) => one.sort === sort && ((one.a === a && one.b === b) || (one.a === b && one.b === a)));
  return texts.filter((text, at) => !texts.slice(0, at).some((earlier) => same(earlier, text)));
}
