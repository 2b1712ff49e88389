import { type Day, dayInWords, dayWithWeekday } from '../vocabulary/days.ts';
import { basisInWords } from '../vocabulary/in-words.ts';
import type { Basis } from '../vocabulary/practice.ts';

/** The same few dates and bases stand in most sentences of a reading: each is worded once. */
const plain = new Map<Day, string>();
const weekday = new Map<Day, string>();
const bases = new WeakMap<Basis, string>();

function once<K>(
  known: { get(key: K): string | undefined; set(key: K, words: string): unknown },
  key: K,
  say: (key: K) => string,
): string {
  const words = known.get(key);
  if (words !== undefined) return words;
  const made = say(key);
  known.set(key, made);
  return made;
}

/** "14 Mar 2026". */
export function dayWords(day: Day): string {
  return once(plain, day, dayInWords);
}

/** "Sat 14 Mar 2026". */
export function weekdayWords(day: Day): string {
  return once(weekday, day, dayWithWeekday);
}

/** On whose word: "R. Amsel told you on 2 Apr 2026". */
export function basisWords(basis: Basis): string {
  return once(bases, basis, basisInWords);
}
