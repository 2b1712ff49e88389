import type { SeenRect } from '../../vocabulary/lot.ts';

/** One word of a page, and where it stands: points in the upright frame of its page, origin lower left. */
export interface TextWord {
  readonly text: string;
  readonly box: SeenRect;
  /** How sure the reader of the picture was of its letters, 0 to 1; 1 where the file itself says them. */
  readonly certainty: number;
  /** What a second look at the same spot made of it; missing where there was none. */
  readonly again?: string | undefined;
  /** What a look for capitals and figures alone made of it, where it may be such a number; 0 to 1 how sure that was. */
  readonly code?: { readonly text: string; readonly certainty: number } | undefined;
}

/** Words that stand on one line across the page, left to right. */
export interface TextLine {
  readonly words: readonly TextWord[];
}

/** Where a page's words come from: the file's own text, or the picture of the page. */
export type TextSource = 'text layer' | 'picture';

export type Turn = 0 | 90 | 180 | 270;

/**
 * What can be read on one page. Words stand in an *upright frame*: the page turned clockwise by `turn`, then by `lean`
 * degrees about its middle, so that lines run level however the sheet lay in the scanner.
 */
export interface PageText {
  /** 0-based, within the file. */
  readonly page: number;
  /** Size of the page as seen, in points. */
  readonly width: number;
  readonly height: number;
  readonly source: TextSource;
  readonly turn: Turn;
  /** Clockwise degrees. */
  readonly lean: number;
  /** No ink stands on it: a back side that went through the scanner with the rest. */
  readonly blank?: boolean | undefined;
  /** Top to bottom. */
  readonly lines: readonly TextLine[];
}

/** From the upright frame back to the page as seen, for the mark that shows where something stands. */
export function onPage(page: Pick<PageText, 'width' | 'height' | 'turn' | 'lean'>, box: SeenRect): SeenRect {
  const [wide, high] = page.turn % 180 === 0 ? [page.width, page.height] : [page.height, page.width];
  const dx = box.x + box.width / 2 - wide / 2;
  const dy = box.y + box.height / 2 - high / 2;
  // Origin lower left: a clockwise turn is undone by turning counter-clockwise.
  const angle = ((page.turn + page.lean) * Math.PI) / 180;
  const x = dx * Math.cos(angle) - dy * Math.sin(angle) + page.width / 2;
  const y = dx * Math.sin(angle) + dy * Math.cos(angle) + page.height / 2;
  const [width, height] = page.turn % 180 === 0 ? [box.width, box.height] : [box.height, box.width];
  return { x: x - width / 2, y: y - height / 2, width, height };
}

/** The page as plain text, a line for each line. */
export function plainText(page: PageText): string {
  return page.lines.map((line) => line.words.map((word) => word.text).join(' ')).join('\n');
}

const right = (word: TextWord | undefined) => (word === undefined ? 0 : word.box.x + word.box.width);

/** "Date issued: ...": a line that opens with a label begins something of its own. */
function opensWithLabel({ words }: TextLine): boolean {
  return words.slice(0, 5).some((word) => /[:]$/.test(word.text));
}

/** One line of running text: many words, no wide gap between them. */
function runsOn({ words }: TextLine): boolean {
  return (
    words.length >= 5 &&
    words.every((word, at) => at === 0 || word.box.x - right(words[at - 1]) < 1.9 * Math.max(5, word.box.height))
  );
}

/** The next line goes on with the sentence of this one: full to the margin, the same left edge, close below. */
function goesOn(line: TextLine, next: TextLine, margin: number): boolean {
  const [first, below, last] = [line.words[0], next.words[0], line.words.at(-1)];
  if (first === undefined || below === undefined || last === undefined) return false;
  if (!runsOn(line) || opensWithLabel(next)) return false;
  const tall = Math.max(first.box.height, 5);
  const room = margin - right(last);
  return (
    room < Math.max(4 * tall, below.box.width + tall) &&
    Math.abs(below.box.x - first.box.x) < 1.2 * tall &&
    first.box.y - (below.box.y + below.box.height) < 1.6 * tall &&
    Math.abs(below.box.height - first.box.height) < 0.8 * tall
  );
}

/** The page with the lines of running text joined, so that a label and its value may stand on two of them. */
export function withParagraphs(page: PageText): PageText {
  const margin = Math.max(0, ...page.lines.map((line) => right(line.words.at(-1))));
  const lines: TextLine[] = [];
  let last: TextLine | undefined;
  for (const line of page.lines) {
    const open = lines.at(-1);
    if (open !== undefined && last !== undefined && goesOn(last, line, margin)) {
      lines[lines.length - 1] = { words: [...open.words, ...line.words] };
    } else lines.push(line);
    last = line;
  }
  return { ...page, lines };
}

/** The box around several boxes. */
export function around(boxes: readonly SeenRect[]): SeenRect {
  const x = Math.min(...boxes.map((box) => box.x));
  const y = Math.min(...boxes.map((box) => box.y));
  const right = Math.max(...boxes.map((box) => box.x + box.width));
  const top = Math.max(...boxes.map((box) => box.y + box.height));
  return { x, y, width: right - x, height: top - y };
}

/** A word hangs on a line whose height it shares by more than half. */
function sharesLine(line: SeenRect, word: SeenRect): boolean {
  const middle = word.y + word.height / 2;
  const shared = Math.min(line.y + line.height, word.y + word.height) - Math.max(line.y, word.y);
  const lineMiddle = line.y + line.height / 2;
  return (
    shared > 0.5 * Math.min(line.height, word.height) &&
    (Math.abs(middle - lineMiddle) < 0.45 * Math.max(line.height, word.height) || shared > 0.85 * line.height)
  );
}

/**
 * Sets words into lines by where they stand alone, whatever order they came in: a label at the left margin and its
 * value across the page belong together.
 */
export function linesOf(words: readonly TextWord[]): readonly TextLine[] {
  const open: { box: SeenRect; words: TextWord[] }[] = [];
  const byHeight = words.toSorted((a, b) => b.box.y + b.box.height / 2 - (a.box.y + a.box.height / 2));
  for (const word of byHeight) {
    const line = open.slice(-6).findLast(({ words: taken }) => {
      const nearest = taken.reduce((near, other) =>
        Math.abs(other.box.x - word.box.x) < Math.abs(near.box.x - word.box.x) ? other : near,
      );
      return sharesLine(nearest.box, word.box);
    });
    if (line === undefined) open.push({ box: word.box, words: [word] });
    else line.words.push(word);
  }
  return open.map((line) => ({ words: line.words.toSorted((a, b) => a.box.x - b.box.x) }));
}
