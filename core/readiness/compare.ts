import { isDay } from '../vocabulary/days.ts';
import type { FactValue, Truth } from '../vocabulary/facts.ts';
import type { LotView } from '../vocabulary/lot.ts';
import { parseMoney } from '../vocabulary/money.ts';
import { sameIdentity } from './same/identity.ts';
import { bare } from './same/spelling.ts';

/** Two values held against each other; 'no common measure' across datums or sorts: nobody may compare those. */
export type Compared = Truth | 'no common measure';

const identitySort = { name: 'owner', address: 'place', 'parcel number': 'parcel' } as const;

/** What two values may be the same of; undefined where they name no owner, place or parcel. */
export function identityOf(a: FactValue, b: FactValue): 'owner' | 'place' | 'parcel' | undefined {
  for (const { sort } of [a, b]) {
    if (sort === 'name' || sort === 'address' || sort === 'parcel number') return identitySort[sort];
  }
  return undefined;
}

function sameDatum(a: string, b: string): boolean {
  const plain = (text: string): string => bare(text).replace(/[^A-Z0-9]/g, '');
  return plain(a) === plain(b);
}

/** A rule's number beside money is whole cents, as the practice reader hands them on; its words are read as an amount. */
function measured(value: FactValue, beside: FactValue): number | string | undefined {
  if (value.sort === 'elevation') return value.value.feet;
  if (typeof value.value === 'boolean') return undefined;
  if (beside.sort === 'money' && value.sort !== 'money') {
    return typeof value.value === 'number' ? value.value : parseMoney(value.value);
  }
  if (typeof value.value === 'number') return value.value;
  return value.sort === 'day' || isDay(value.value) ? value.value : undefined;
}

/** Whether `a` is at most `b`. Dates count by the calendar. */
export function atMost(a: FactValue, b: FactValue): Compared {
  if (a.sort === 'elevation' && b.sort === 'elevation' && !sameDatum(a.value.datum, b.value.datum)) {
    return 'no common measure';
  }
  const [left, right] = [measured(a, b), measured(b, a)];
  if (typeof left === 'number' && typeof right === 'number') return left <= right;
  if (typeof left === 'string' && typeof right === 'string') return left <= right;
  return 'no common measure';
}

function words(value: FactValue): string {
  return bare(String(value.value)).replace(/^(?:REV|REVISION)\.? /, '');
}

/** Whether two values are the same: places, people and parcels through their aliases, words by their letters. */
export function sameValue(a: FactValue, b: FactValue, lot: LotView): Compared {
  const identity = identityOf(a, b);
  if (identity !== undefined) {
    if (typeof a.value !== 'string' || typeof b.value !== 'string') return 'no common measure';
    return sameIdentity(identity, [a.value, b.value], lot);
  }
  if (a.sort === 'elevation' && b.sort === 'elevation') {
    return sameDatum(a.value.datum, b.value.datum) ? a.value.feet === b.value.feet : 'no common measure';
  }
  const [left, right] = [measured(a, b), measured(b, a)];
  if (left !== undefined && right !== undefined && typeof left === typeof right) return left === right;
  if (typeof a.value === 'boolean' || typeof b.value === 'boolean') {
    const yesNo = (value: FactValue): string =>
      typeof value.value === 'boolean' ? (value.value ? 'YES' : 'NO') : words(value);
    return yesNo(a) === yesNo(b);
  }
  if (typeof a.value === 'object' || typeof b.value === 'object') return 'no common measure';
  return words(a) === words(b);
}
