import { folded, near } from './folded.ts';
import type { PageText, TextWord } from './page-text.ts';

/** A run of words on one line of one page. */
export interface Spot {
  readonly page: PageText;
  readonly line: number;
  /** Words `from` up to, not including, `to`. */
  readonly from: number;
  readonly to: number;
}

/** A phrase ready to be looked for. */
export interface Phrase<T> {
  readonly means: T;
  readonly folded: string;
  /** Each word folded. */
  readonly parts: readonly string[];
  readonly words: string;
}

export interface Hit<T> extends Spot {
  readonly phrase: Phrase<T>;
}

export function phraseOf<T>(words: string, means: T): Phrase<T> {
  const parts = words
    .split(/\s+/)
    .map(folded)
    .filter((part) => part !== '');
  return { means, folded: folded(words), parts, words };
}

export function wordsAt({ page, line, from, to }: Spot): readonly TextWord[] {
  return page.lines[line]?.words.slice(from, to) ?? [];
}

/** Word for word where the words can be counted off, so that "eff" is no slip for "exp"; else as a whole. */
function fits(read: readonly FoldedWord[], phrase: Phrase<unknown>): boolean {
  const whole = read.map((word) => word.text).join('');
  if (whole === phrase.folded) return true;
  // Figures are never a slip for letters: "issued 20" is not "issued to".
  if (read.some((word) => word.figures)) return false;
  const parts = read.filter((word) => word.text !== '');
  if (parts.length !== phrase.parts.length) return near(whole, phrase.folded);
  return phrase.parts.every((part, at) => near(parts[at]?.text ?? '', part));
}

/** No phrase is longer than this many words, and a split word counts as two. */
const longest = 9;

interface FoldedWord {
  readonly text: string;
  readonly figures: boolean;
}

/** Phrases by their first letters, so that a word is only held against those it could begin. */
export class PhraseBook<T> {
  readonly #byStart = new Map<string, Phrase<T>[]>();

  constructor(phrases: readonly Phrase<T>[]) {
    for (const phrase of phrases) {
      const start = phrase.folded.slice(0, 1);
      if (start === '') continue;
      const group = this.#byStart.get(start);
      if (group === undefined) this.#byStart.set(start, [phrase]);
      else group.push(phrase);
    }
  }

  /** Every place where a phrase stands, split and joined words and a slip of the reader allowed. */
  find(page: PageText): readonly Hit<T>[] {
    return page.lines.flatMap(({ words }, line) => {
      const texts = words.map((word) => ({ text: folded(word.text), figures: /^\W*\d[\d\W]*$/.test(word.text) }));
      return texts.flatMap((_, from) => this.#at(texts, from).map((hit) => ({ page, line, from, ...hit })));
    });
  }

  #at(texts: readonly FoldedWord[], from: number): readonly { readonly to: number; readonly phrase: Phrase<T> }[] {
    const first = texts[from]?.text ?? '';
    const group = this.#byStart.get(first.slice(0, 1)) ?? [];
    if (first === '' || group.length === 0) return [];
    const hits = new Map<Phrase<T>, number>();
    for (let to = from + 1; to <= Math.min(texts.length, from + longest); to += 1) {
      for (const phrase of group) {
        if (!hits.has(phrase) && fits(texts.slice(from, to), phrase)) hits.set(phrase, to);
      }
    }
    return [...hits].map(([phrase, to]) => ({ to, phrase }));
  }
}
