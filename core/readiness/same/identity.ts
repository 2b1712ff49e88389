import type { Truth } from '../../vocabulary/facts.ts';
import type { Identity, LotView } from '../../vocabulary/lot.ts';
import { sameAddress } from './address.ts';
import { peopleOf, sameName } from './name.ts';
import { sameParcel } from './parcel.ts';

const comparers: Readonly<Record<Identity['sort'], (a: string, b: string) => Truth>> = {
  place: sameAddress,
  owner: sameName,
  parcel: sameParcel,
};

/** Every spelling known to mean the lot's own place, owner or parcel, confirmed pairs followed. */
function ownSpellings(sort: Identity['sort'], lot: LotView): readonly string[] {
  const own = lot.identities.filter((identity) => identity.sort === sort).map((identity) => identity.text);
  const pairs = lot.sameAs.filter((pair) => pair.sort === sort);
  const compare = comparers[sort];
  for (let grown = true; grown; ) {
    grown = false;
    for (const { a, b } of pairs) {
      const [hasA, hasB] = [a, b].map((text) => own.some((known) => known === text || compare(known, text) === true));
      if (hasA === hasB) continue;
      own.push(hasA === true ? b : a);
      grown = true;
    }
  }
  return own;
}

function confirmed(sort: Identity['sort'], pair: readonly [string, string], lot: LotView): boolean {
  const [a, b] = pair;
  const compare = comparers[sort];
  return lot.sameAs.some(
    (known) =>
      known.sort === sort &&
      ((compare(known.a, a) === true && compare(known.b, b) === true) ||
        (compare(known.a, b) === true && compare(known.b, a) === true)),
  );
}

/** Among the lot's own: an owner's paper may list several people, and each must be one. */
function isOwn(sort: Identity['sort'], text: string, own: readonly string[]): Truth {
  const compare = comparers[sort];
  const among = (one: string): Truth => {
    const answers = own.map((known) => compare(known, one));
    return answers.includes(true) ? true : answers.includes('unknown') ? 'unknown' : false;
  };
  const whole = among(text);
  if (whole === true || sort !== 'owner') return whole;
  const people = own.flatMap((known) => peopleOf(known).map((words) => words.join(' ')));
  const each = peopleOf(text).map((words) => {
    const answers = people.map((person) => sameName(person, words.join(' ')));
    return answers.includes(true) ? true : answers.includes('unknown') ? 'unknown' : false;
  });
  if (each.length > 0 && each.every((answer) => answer === true)) return true;
  return each.includes(false) ? false : 'unknown';
}

/**
 * Whether two spellings mean the same place, person or parcel for this lot: equal after normalising, confirmed by
 * the owner, or both known names of the lot over time ("Lot 7, Heron Lane" became "418 Heron Lane").
 */
export function sameIdentity(sort: Identity['sort'], pair: readonly [string, string], lot: LotView): Truth {
  const [a, b] = pair;
  const direct = comparers[sort](a, b);
  if (direct === true || confirmed(sort, pair, lot)) return true;
  const own = ownSpellings(sort, lot);
  const [first, second] = [isOwn(sort, a, own), isOwn(sort, b, own)];
  if (first === true && second === true) return true;
  if (direct === 'unknown') return 'unknown';
  return first !== false && second !== false ? 'unknown' : false;
}
