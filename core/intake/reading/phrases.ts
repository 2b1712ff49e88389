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
  readonly words: string;
}

export interface Hit<T> extends Spot {
  readonly phrase: Phrase<T>;
}

export function phraseOf<T>(words: string, means: T): Phrase<T> {
  return { means, folded: folded(words), words };
}

export function wordsAt({ page, line, from, to }: Spot): readonly TextWord[] {
  return page.lines[line]?.words.slice(from, to) ?? [];
}

/** No phrase is longer than this many words, and a split word counts as two. */
const longest = 9;

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
      const texts = words.map((word) => folded(word.text));
      return texts.flatMap((_, from) => this.#at(texts, from).map((hit) => ({ page, line, from, ...hit })));
    });
  }

  #at(texts: readonly string[], from: number): readonly { readonly to: number; readonly phrase: Phrase<T> }[] {
    const first = texts[from] ?? '';
    const group = this.#byStart.get(first.slice(0, 1)) ?? [];
    if (first === '' || group.length === 0) return [];
    const hits = new Map<Phrase<T>, number>();
    let read = '';
    for (let to = from + 1; to <= Math.min(texts.length, from + longest); to += 1) {
      read += texts[to - 1] ?? '';
      for (const phrase of group) {
        if (!hits.has(phrase) && near(read, phrase.folded)) hits.set(phrase, to);
      }
    }
    return [...hits].map(([phrase, to]) => ({ to, phrase }));
  }
}
