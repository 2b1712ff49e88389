import { type Day, dayInWords, dayWithWeekday } from '../vocabulary/days.ts';

/** The same few dates stand in most sentences of a reading: each is worded once. */
const plain = new Map<Day, string>();
const weekday = new Map<Day, string>();

function once(known: Map<Day, string>, day: Day, say: (day: Day) => string): string {
  const words = known.get(day);
  if (words !== undefined) return words;
  const made = say(day);
  known.set(day, made);
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

/** A practice file's words as a sentence: with a full stop, whether or not they came with one. */
export function sentence(words: string): string {
  return /[.!?]$/.test(words) ? words : `${words}.`;
}
