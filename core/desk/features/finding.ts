import type { SearchHit } from '../../store/index.ts';
import type { Practice } from '../../vocabulary/practice.ts';
import { onLot } from '../context.ts';
import type { FoundRow } from '../contract/answers.ts';
import { requests } from '../contract/requests.ts';
import { askedOf, officeTitle } from './asked.ts';
import { foundInVisits } from './past-visits.ts';

/** The one line that finds a paper, a number, an office, an errand, what came of one, or a word. */

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

/** The words of a line that begin with the words looked for; undefined where one is not there. */
function marksIn(line: string, words: readonly string[]): FoundRow['marks'] | undefined {
  const text = folded(line);
  const marks: (readonly [number, number])[] = [];
  for (const word of words) {
    const starts = [...text.matchAll(/[\p{L}\p{N}]+/gu)].find((match) => match[0].startsWith(word));
    if (starts === undefined) return undefined;
    marks.push([starts.index, starts.index + starts[0].length]);
  }
  return marks.toSorted((a, b) => a[0] - b[0]);
}

/** What was typed, word by word. */
function wordsIn(text: string): readonly string[] {
  return [...folded(text).matchAll(/[\p{L}\p{N}]+/gu)].map(([word]) => word);
}

/** Errands and offices whose titles hold every word, the last letters may be missing. */
function titled(practice: Practice, words: readonly string[]): readonly FoundRow[] {
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

/** Papers by what is written on their card first, then errands and offices, what came of visits, then words on pages. */
export const find = onLot(requests.find, ({ text, limit }, at) => {
  const words = wordsIn(text);
  const hits = at.lot.search(text, { limit }).map(paperRow);
  const asked = askedOf(at);
  const named = titled(asked.practice, words);
  const said = words.length === 0 ? [] : foundInVisits(at, asked, (line) => marksIn(line, words));
  const cards = hits.filter(({ why }) => why !== 'page');
  const pages = hits.filter(({ why }) => why === 'page');
  return { found: [...cards, ...named, ...said, ...pages].slice(0, limit) };
});
