import type { Truth } from '../../vocabulary/facts.ts';
import { bare, oneSlipApart } from './spelling.ts';

const ignored = new Set(['MR', 'MRS', 'MS', 'DR', 'ET', 'UX', 'VIR', 'AL', 'HUSBAND', 'WIFE', 'THE']);

/** "LINDQVIST, TOMÁS" -> "TOMÁS LINDQVIST"; a trailing "Jr." or "LLC" after a comma stays where it is. */
function turned(text: string): string {
  const match = /^([^,]+),\s*([^,]+)$/.exec(text.trim());
  if (match === null || /^(?:jr|sr|ii|iii|iv|llc|inc|ltd|co|trustees?)\b\.?/i.test(match[2] ?? '')) return text;
  return `${match[2]} ${match[1]}`;
}

/** The people (or firms) a printed name lists, each as its words. */
export function peopleOf(text: string): readonly (readonly string[])[] {
  return text
    .split(/\s+(?:and|or|&)\s+|\s*[;/&]\s*|\n/i)
    .map((person) =>
      bare(turned(person))
        .split(/[\s-]+/)
        .filter((word) => word !== '' && !ignored.has(word)),
    )
    .filter((words) => words.length > 0);
}

function isInitialOf(a: string, b: string): boolean {
  return (a.length === 1 && b.startsWith(a)) || (b.length === 1 && a.startsWith(b));
}

function sortedWords(words: readonly string[]): string {
  return words.toSorted((a, b) => (a < b ? -1 : a > b ? 1 : 0)).join(' ');
}

/** Same words in any order: true. One list within the other, initials, or one slip: worth asking. */
function samePerson(a: readonly string[], b: readonly string[]): Truth {
  if (sortedWords(a) === sortedWords(b)) return true;
  const [short, long] = a.length <= b.length ? [a, b] : [b, a];
  if (short.length < 2) return false;
  const exact = short.filter((word) => long.includes(word)).length;
  const loose = short.every((word) =>
    long.some((other) => word === other || isInitialOf(word, other) || oneSlipApart(word, other)),
  );
  return loose && exact >= 1 ? 'unknown' : false;
}

/** How a person fares against a list of people: the best answer counts. */
function among(person: readonly string[], people: readonly (readonly string[])[]): Truth {
  const answers = people.map((other) => samePerson(person, other));
  return answers.includes(true) ? true : answers.includes('unknown') ? 'unknown' : false;
}

/**
 * Whether two printed names name the same people: word order, accents, case, commas and titles don't count.
 * 'unknown' where a middle name, an initial or one of several people is missing.
 */
export function sameName(a: string, b: string): Truth {
  const [one, two] = [peopleOf(a), peopleOf(b)];
  if (one.length === 0 || two.length === 0) return one.length === two.length ? true : 'unknown';
  const [few, many] = one.length <= two.length ? [one, two] : [two, one];
  const answers = few.map((person) => among(person, many));
  if (answers.includes(false)) return false;
  return answers.includes('unknown') || few.length !== many.length ? 'unknown' : true;
}
