import { bare } from './folded.ts';
import { around, onPage, type PageText, type TextWord } from './page-text.ts';
import { type Spot, wordsAt } from './phrases.ts';
import type { Place, Sureness } from './reading-model.ts';

/** A letter of a scan that its reader was less sure of than this counts as doubtful. */
const leastCertain = 0.5;

/** Where a spot stands on the page as seen. */
export function placeOf(spot: Spot): Place {
  const words = wordsAt(spot);
  return placeOfWords(spot.page, words);
}

export function placeOfWords(page: PageText, words: readonly TextWord[]): Place {
  return {
    page: page.page,
    box: onPage(page, around(words.map((word) => word.box))),
    words: words.map((word) => word.text).join(' '),
  };
}

/** Both looks at every word with a figure saw the same; what the file itself says needs no second look. */
export function looksAgree(page: PageText, words: readonly TextWord[]): boolean {
  if (page.source === 'text layer') return true;
  return words
    .filter((word) => /\d/.test(word.text))
    .every(
      (word) => word.again !== undefined && bare(word.again) === bare(word.text) && word.certainty >= leastCertain,
    );
}

const order: readonly Sureness[] = ['guess', 'likely', 'sure'];

/** One doubt makes what was sure likely, two make it a guess. */
export function surenessAfter(doubts: readonly string[], best: Sureness = 'sure'): Sureness {
  const at = order.indexOf(best) - doubts.length;
  return order[Math.max(0, at)] ?? 'guess';
}
