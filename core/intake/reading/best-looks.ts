import { monthOf } from './dates.ts';
import { bare } from './folded.ts';
import type { PageText, TextWord } from './page-text.ts';

/** What stands around a word's letters: brackets and quotes before, stops and commas behind. */
function parts(text: string): readonly [before: string, core: string, behind: string] {
  const match = /^(\W*)(.*?)(\W*)$/su.exec(text);
  return [match?.[1] ?? '', match?.[2] ?? '', match?.[3] ?? ''];
}

/** A look this certain outweighs two that agree with one another, where it is also the surest of all. */
const veryCertain = 0.8;
/** Below this a look proves nothing against others. */
const hardlyCertain = 0.5;

/** One sign seen as two: a small letter and its capital, a figure and the letter that looks like it. */
const sawTwice =
  /[Oo]0|0[Oo]|S5|5S|[Zz]2|2[Zz]|B8|8B|[Il]1|1[Il]|cC|Cc|kK|Kk|oO|Oo|pP|Pp|sS|Ss|uU|Uu|vV|Vv|wW|Ww|xX|Xx|zZ|Zz/;

interface Looks {
  readonly first: string;
  readonly certainty: number;
  readonly again: string | undefined;
  readonly code: { readonly text: string; readonly certainty: number } | undefined;
  /** The word before or behind it is a month's name. */
  readonly byMonth: boolean;
}

/** Whether the second look alone is the better one. */
function betterAgain({ first, certainty, again = '', byMonth }: Looks): boolean {
  if (/[=~_]/.test(first) && !/[=~_]/.test(again) && bare(again) === bare(first)) return true;
  // "5S April" is the fifth; "1B" by itself is a lot, a unit, a model.
  if (byMonth && /^\d{1,2}$/.test(again) && /^\d*[A-Za-z]\d*$/.test(first) && first.length <= 3) return true;
  if (bare(again).length !== bare(first).length) return false;
  // Where one look saw a letter all by itself between strokes, the other took it for one of the figures around it.
  return (
    certainty < hardlyCertain || (/-[0-8]-/.test(first) && first.replace(/-.-/, '') === again.replace(/-[A-Z]-/, ''))
  );
}

/** Which of the looks is believed. None is ever put together from several: what is shown was seen by somebody. */
function believed(looks: Looks): string {
  const { first, certainty, again, code } = looks;
  if (code === undefined) return again !== undefined && betterAgain(looks) ? again : first;
  if (code.text === first) return first;
  if (again === undefined || again === first)
    return code.certainty >= veryCertain && code.certainty > certainty ? code.text : first;
  if (code.text === again) return again;
  // A look that may only see capitals and figures sees none twice; it may well lose one.
  const whole = code.text.length === first.length || (code.text.length === first.length - 1 && sawTwice.test(first));
  return whole ? code.text : first.toUpperCase();
}

function bestWord(word: TextWord, at: number, line: readonly TextWord[]): TextWord {
  if (word.again === undefined && word.code === undefined) return word;
  const [before, first, behind] = parts(word.text);
  const again = word.again === undefined ? undefined : parts(word.again)[1];
  const code = word.code === undefined ? undefined : { ...word.code, text: parts(word.code.text)[1] };
  const byMonth = [line[at - 1], line[at + 1]].some((next) => next !== undefined && monthOf(next.text) > 0);
  const best = believed({ first, certainty: word.certainty, again, code, byMonth });
  const dissent = [first, again, (code?.certainty ?? 0) >= hardlyCertain ? code?.text : undefined].find(
    (look) => look !== undefined && bare(look) !== bare(best),
  );
  return { ...word, text: `${before}${best}${behind}`, again: dissent ?? word.again };
}

/** The page with every word that was looked at several times as the best of the looks has it. */
export function withBestLooks(page: PageText): PageText {
  if (page.source === 'text layer') return page;
  return { ...page, lines: page.lines.map(({ words }) => ({ words: words.map(bestWord) })) };
}
