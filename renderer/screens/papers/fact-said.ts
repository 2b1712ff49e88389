import { type Day, isDay } from '../../../core/vocabulary/days.ts';
import { LotfileError } from '../../../core/vocabulary/errors.ts';
import { type FactSort, factSorts } from '../../../core/vocabulary/facts.ts';
import { readFact } from '../../../core/vocabulary/said-facts.ts';

export function isFactSort(text: string): text is FactSort {
  return factSorts.some((sort) => sort === text);
}

/** What is wrong with a fact as typed, in words; undefined where it can be read or nothing was typed. */
export function wrongWith(sort: FactSort, said: string, title: string): string | undefined {
  if (said.trim() === '') return undefined;
  try {
    readFact(sort, said, title);
    return undefined;
  } catch (error) {
    const { message, next } = LotfileError.from(error);
    return `${message} ${next ?? ''}`.trim();
  }
}

const monthNames = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** "14 Mar 2026", as the program prints a day, back into the day; also takes a day already written so. */
export function dayOfWords(words: string): Day | undefined {
  if (isDay(words)) return words;
  const match = /^(\d{1,2}) ([A-Z][a-z]{2}) (\d{4})$/.exec(words.trim());
  if (match === null) return undefined;
  const month = monthNames.indexOf(match[2] ?? '') + 1;
  const text = `${match[3]}-${String(month).padStart(2, '0')}-${(match[1] ?? '').padStart(2, '0')}`;
  return isDay(text) ? text : undefined;
}

/** A fact as printed, put so that it can be said again. */
export function sayAgain(sort: string, words: string): string {
  return sort === 'day' ? (dayOfWords(words) ?? '') : words;
}

export interface ElevationSaid {
  readonly feet: string;
  readonly datum: string;
}

export function elevationParts(said: string): ElevationSaid {
  const match = /^\s*(-?[\d.]*)\s*(?:ft|feet)?\s*(.*)$/i.exec(said);
  return { feet: match?.[1] ?? '', datum: (match?.[2] ?? '').trim() };
}

export function elevationSaid({ feet, datum }: ElevationSaid): string {
  return feet.trim() === '' && datum === '' ? '' : `${feet.trim()} ft ${datum}`.trim();
}
