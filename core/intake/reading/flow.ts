import type { PageText, TextWord } from './page-text.ts';
import type { Spot } from './phrases.ts';

interface Piece extends Spot {
  readonly start: number;
  readonly end: number;
}

/** The words of a page as one running text, each letter knowing the word it came from: sentences run over lines. */
export interface Flow {
  readonly page: PageText;
  readonly text: string;
  readonly pieces: readonly Piece[];
}

export function flowOf(page: PageText): Flow {
  const pieces: Piece[] = [];
  let text = '';
  page.lines.forEach(({ words }, line) => {
    words.forEach((word: TextWord, at) => {
      if (text !== '') text += ' ';
      const start = text.length;
      text += word.text;
      pieces.push({ page, line, from: at, to: at + 1, start, end: text.length });
    });
  });
  return { page, text, pieces };
}

/** The words that a stretch of the text covers. */
export function wordsOfStretch({ page, pieces }: Flow, start: number, end: number): readonly TextWord[] {
  return pieces
    .filter((piece) => piece.end > start && piece.start < end)
    .flatMap((piece) => page.lines[piece.line]?.words.slice(piece.from, piece.to) ?? []);
}
