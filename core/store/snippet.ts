import { foldWords, type Phrase } from './search-words.ts';

interface Word {
  readonly start: number;
  readonly end: number;
  readonly folded: string;
}

const before = 48;
const after = 110;

/** Words of the text as they stand, with what each folds to; positions stay those of the original. */
function wordsOf(text: string): readonly Word[] {
  return [...text.matchAll(/[\p{L}\p{N}][\p{L}\p{N}\p{M}]*/gu)].map((match) => ({
    start: match.index,
    end: match.index + match[0].length,
    folded: foldWords(match[0]),
  }));
}

/** Where a phrase stands: its words in a row, the last a beginning; a joined number also where it is written apart. */
function* placesOf(words: readonly Word[], phrase: Phrase): Generator<readonly [number, number]> {
  const wanted = phrase.words;
  const mayBeJoined = wanted.length === 1 && /\d/.test(wanted[0] ?? '');
  for (let i = 0; i < words.length; i += 1) {
    const first = words[i];
    const last = words[i + wanted.length - 1];
    if (first === undefined) continue;
    const hit = wanted.every((word, k) => {
      const there = words[i + k]?.folded;
      return k === wanted.length - 1 && word.length > 1 ? there?.startsWith(word) === true : there === word;
    });
    if (hit && last !== undefined) yield [first.start, last.end];
    else if (mayBeJoined) yield* joinedPlace(words.slice(i, i + 6), wanted[0] ?? '');
  }
}

function* joinedPlace(words: readonly Word[], wanted: string): Generator<readonly [number, number]> {
  let joined = '';
  for (const [k, word] of words.entries()) {
    joined += word.folded;
    if (!wanted.startsWith(joined) && !joined.startsWith(wanted)) return;
    const first = words[0];
    if (k > 0 && first !== undefined && /\d/.test(joined) && joined.startsWith(wanted)) {
      yield [first.start, word.end];
      return;
    }
  }
}

/** A piece of text around the first place where the phrases stand, with the places marked. */
export function snippetOf(
  text: string,
  phrases: readonly Phrase[],
): { readonly snippet: string; readonly marks: readonly (readonly [number, number])[] } {
  const words = wordsOf(text);
  const places = phrases.flatMap((phrase) => [...placesOf(words, phrase)]).sort((a, b) => a[0] - b[0]);
  const at = places[0]?.[0] ?? 0;
  const from = words.find((word) => word.start >= at - before)?.start ?? 0;
  const to = words.findLast((word) => word.end <= from + before + after)?.end ?? text.length;
  const end = Math.max(to, places[0]?.[1] ?? 0);
  const lead = from > 0 ? '… ' : '';
  const raw = text.slice(from, end).replace(/\s/g, ' ');
  const shift = lead.length - from;
  const marks: (readonly [number, number])[] = [];
  for (const [start, stop] of places) {
    const previous = marks.at(-1);
    if (stop <= end && (previous === undefined || start + shift >= previous[1]))
      marks.push([start + shift, stop + shift]);
  }
  return { snippet: `${lead}${raw}${end < text.trimEnd().length ? ' …' : ''}`, marks };
}
