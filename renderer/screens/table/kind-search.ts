import type { PaperRow } from '../../../core/desk/contract/answers.ts';
import type { Practice } from '../../../core/vocabulary/practice.ts';
import { stillToGet } from '../papers/arrange-papers.ts';

export interface KindOption {
  readonly id: string;
  readonly title: string;
  readonly office: string;
  /** Some errand still waits for it. */
  readonly wanted: boolean;
  /** Words printed on it that give it away. */
  readonly words: string;
}

const otherKind: KindOption = {
  id: 'other',
  title: 'Something else',
  office: 'you give it a title',
  wanted: false,
  words: '',
};

/** Every kind there is: those still to get first, in the order of the practice, then the rest by title. */
export function kindOptions(practice: Practice, papers: readonly PaperRow[]): readonly KindOption[] {
  const wanted = new Set(papers.filter(stillToGet).map(({ kind }) => kind));
  const kinds = Object.values(practice.papers)
    .filter(({ id }) => id !== otherKind.id)
    .map(({ id, title, from, looksLike }): KindOption => {
      const office = practice.offices[from]?.title ?? '';
      return { id, title, office, wanted: wanted.has(id), words: looksLike.join(' ') };
    });
  const rest = kinds.filter((kind) => !kind.wanted).toSorted((a, b) => a.title.localeCompare(b.title, 'en'));
  return [...kinds.filter((kind) => kind.wanted), ...rest, otherKind];
}

function plain(text: string): string {
  return text.normalize('NFD').replace(/\p{M}/gu, '').toLocaleLowerCase('en');
}

/** How near a kind is to what was typed: its title's beginning, a word's, anywhere in it, its office or its words. */
function nearness({ title, office, words }: KindOption, typed: string): number {
  const named = plain(title);
  if (named.startsWith(typed)) return 0;
  if (named.includes(` ${typed}`)) return 1;
  if (named.includes(typed)) return 2;
  return plain(`${office} ${words}`).includes(typed) ? 3 : 9;
}

/** Kinds that fit what was typed, nearest first; "something else" always stays within reach. */
export function foundKinds(kinds: readonly KindOption[], text: string): readonly KindOption[] {
  const typed = plain(text.trim());
  if (typed === '') return kinds;
  const near = kinds
    .map((kind) => ({ kind, at: nearness(kind, typed) }))
    .filter(({ at, kind }) => at < 9 || kind.id === otherKind.id);
  return near.toSorted((a, b) => a.at - b.at).map(({ kind }) => kind);
}
