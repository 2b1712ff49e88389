import type { SearchHit } from '../../store/index.ts';
import type { Practice } from '../../vocabulary/practice.ts';
import { onLot } from '../context.ts';
import type { FoundRow } from '../contract/answers.ts';
import { requests } from '../contract/requests.ts';
import { officeTitle } from './asked.ts';

/** The one line that finds a paper, a number, an office, an errand or a word. */

function paperRow({ paper, edition, kind, title, page, why, snippet, marks }: SearchHit): FoundRow {
  return { sort: 'paper', paper, edition, kind, title, page, why, snippet, marks };
}

/** Without accents and case, letter for letter, so that a place in it is a place in the title. */
function folded(text: string): string {
  return [...text]
    .map((letter) => {
      const plain = letter.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();
      return plain.length === letter.length ? plain : letter;
    })
    .join('');
}

/** The words of the title that begin with the words looked for; undefined where one is not there. */
function marksIn(title: string, words: readonly string[]): FoundRow['marks'] | undefined {
  const text = folded(title);
  const marks: (readonly [number, number])[] = [];
  for (const word of words) {
    const starts = [...text.matchAll(/[\p{L}\p{N}]+/gu)].find((match) => match[0].startsWith(word));
    if (starts === undefined) return undefined;
    marks.push([starts.index, starts.index + starts[0].length]);
  }
  return marks.toSorted((a, b) => a[0] - b[0]);
}

/** Errands and offices whose titles hold every word, the last letters may be missing. */
function titled(practice: Practice, text: string): readonly FoundRow[] {
  const words = [...folded(text).matchAll(/[\p{L}\p{N}]+/gu)].map(([word]) => word);
  if (words.length === 0) return [];
  const found = (title: string, row: Pick<FoundRow, 'sort' | 'errand' | 'office'>): readonly FoundRow[] => {
    const marks = marksIn(title, words);
    return marks === undefined ? [] : [{ ...row, title, why: 'title', snippet: title, marks }];
  };
  return [
    ...Object.values(practice.errands).flatMap(({ id, title }) => found(title, { sort: 'errand', errand: id })),
    ...Object.values(practice.offices)
      .filter(({ exists }) => exists)
      .flatMap(({ id }) => found(officeTitle(practice, id), { sort: 'office', office: id })),
  ];
}

/** Papers by what is written on their card first, then errands and offices, then words on pages. */
export const find = onLot(requests.find, ({ text, limit }, { lot }) => {
  const hits = lot.search(text, { limit }).map(paperRow);
  const named = titled(lot.practice(), text);
  const cards = hits.filter(({ why }) => why !== 'page');
  const pages = hits.filter(({ why }) => why === 'page');
  return { found: [...cards, ...named, ...pages].slice(0, limit) };
});
