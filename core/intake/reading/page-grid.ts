import { around, type PageText, type TextWord } from './page-text.ts';
import { type Hit, type Spot, wordsAt } from './phrases.ts';

/** A run of words that may be a label's value. */
export interface Run extends Spot {
  readonly words: readonly TextWord[];
  readonly where: 'beside' | 'below';
  /** The column goes on below with another row of the same table. */
  readonly goesOn: boolean;
}

/** What ends a value: the next label that stands for itself. */
export interface Starts {
  /** Word indices on a line at which a label begins. */
  at(page: PageText, line: number): readonly number[];
}

const height = (word: TextWord | undefined) => Math.max(word?.box.height ?? 0, 5);
const right = (word: TextWord | undefined) => (word === undefined ? 0 : word.box.x + word.box.width);

function gapBefore(words: readonly TextWord[], at: number): number {
  const [last, next] = [words[at - 1], words[at]];
  return last === undefined || next === undefined ? 0 : next.box.x - right(last);
}

/** Letter heights that make a gap too wide for one value. */
const wideGap = 1.9;

/** Marks and little words between a label and its value. */
const filler = /^(?:[:.,;=#_\-–—]+|is|no\.?:?|#:?)$/i;

/** A word before which a gap opens, or that begins its line, begins a cell. */
export function beginsCell({ page, line, from }: Spot): boolean {
  const words = page.lines[line]?.words ?? [];
  return from === 0 || gapBefore(words, from) > wideGap * Math.min(height(words[from - 1]), height(words[from]));
}

/** Nothing but a gap, or the end of the line, comes after. */
export function endsCell({ page, line, to }: Spot): boolean {
  const words = page.lines[line]?.words ?? [];
  return to >= words.length || gapBefore(words, to) > wideGap * Math.min(height(words[to - 1]), height(words[to]));
}

/** The words after the label on its own line, up to the next label, sentence end or wide gap. */
export function beside(label: Spot, starts: Starts): Run {
  const { page, line } = label;
  const words = page.lines[line]?.words ?? [];
  const stops = starts.at(page, line);
  let from = label.to;
  while (from < words.length && filler.test(words[from]?.text ?? '') && !stops.includes(from)) from += 1;
  let to = from;
  while (to < words.length && !stops.includes(to)) {
    if (to > from && gapBefore(words, to) > wideGap * height(words[to - 1])) break;
    to += 1;
  }
  return { page, line, from, to, words: words.slice(from, to), where: 'beside', goesOn: false };
}

/**
 * The next cell of the line, where the label goes on in its own ("Fan flow at 50 Pa", "Air changes (740 x 60)") and
 * only then comes the value.
 */
export function nextCell(label: Spot, starts: Starts): Run | undefined {
  const { page, line } = label;
  const words = page.lines[line]?.words ?? [];
  let from = label.to;
  while (from < words.length && !beginsCell({ page, line, from, to: from })) from += 1;
  if (
    from === label.to ||
    from >= words.length ||
    starts.at(page, line).some((stop) => stop > label.from && stop <= from)
  ) {
    return undefined;
  }
  let to = from + 1;
  while (to < words.length && !beginsCell({ page, line, from: to, to })) to += 1;
  return { page, line, from, to, words: words.slice(from, to), where: 'beside', goesOn: false };
}

function cellStarts(page: PageText, line: number): readonly TextWord[] {
  const words = page.lines[line]?.words ?? [];
  return words.filter((_, from) => beginsCell({ page, line, from, to: from }));
}

/**
 * Label and value stand in a list: lines above or below have two cells that begin at the same places, and figures only
 * in the second. In a grid, rows of labels and rows of values take turns.
 */
export function inList(label: Spot, run: Run): boolean {
  const { page, line } = label;
  const [left, second] = [page.lines[line]?.words[label.from]?.box.x, run.words[0]?.box.x];
  if (left === undefined || second === undefined) return false;
  const alike = [-3, -2, -1, 1, 2, 3].flatMap((step) => {
    const [one, two, three] = cellStarts(page, line + step);
    const same =
      one !== undefined &&
      two !== undefined &&
      three === undefined &&
      Math.abs(one.box.x - left) < 6 &&
      Math.abs(two.box.x - second) < 8;
    return same ? [{ step, figures: /\d/.test(firstCell(page, line + step)) }] : [];
  });
  const near = alike.some(({ step }) => Math.abs(step) === 1);
  return near && alike.length >= 2 && alike.filter(({ figures }) => figures).length <= alike.length / 4;
}

function firstCell(page: PageText, line: number): string {
  const words = page.lines[line]?.words ?? [];
  const end = words.findIndex((_, at) => at > 0 && beginsCell({ page, line, from: at, to: at }));
  return words
    .slice(0, end < 0 ? words.length : end)
    .map((word) => word.text)
    .join(' ');
}

/** The next line is another row of the same table: three cells or more, one of them in this column, none a label. */
function rowFollows(page: PageText, line: number, at: { readonly x: number; readonly starts: Starts }): boolean {
  const cells = cellStarts(page, line + 1);
  return (
    cells.length >= 3 &&
    at.starts.at(page, line + 1).length === 0 &&
    cells.some((cell) => Math.abs(cell.box.x - at.x) < 6)
  );
}

/** The words under the label: the next lines, from about its left edge on. */
export function below(label: Spot, starts: Starts): readonly Run[] {
  const { page, line } = label;
  const own = wordsAt(label);
  const box = around(own.map((word) => word.box));
  const tall = Math.max(...own.map(height));
  const runs: Run[] = [];
  for (let next = line + 1; next < Math.min(page.lines.length, line + 4); next += 1) {
    const words = page.lines[next]?.words ?? [];
    const from = words.findIndex((word) => word.box.x > box.x - 1.5 * tall);
    const first = words[from];
    if (first === undefined || first.box.x > box.x + Math.max(box.width * 0.8, 4 * tall)) continue;
    if (box.y - (first.box.y + first.box.height) > 3.2 * tall) break;
    const stops = starts.at(page, next);
    // What stands under a label and is a label itself begins another row.
    if (stops.includes(from)) break;
    let to = from + 1;
    while (to < words.length && !stops.includes(to) && gapBefore(words, to) <= wideGap * height(words[to - 1])) to += 1;
    const run: Run = {
      page,
      line: next,
      from,
      to,
      words: words.slice(from, to),
      where: 'below',
      goesOn: rowFollows(page, next, { x: first.box.x, starts }),
    };
    // A line of prose that runs on from the left is no cell under this label.
    if (beginsCell(run)) runs.push(run);
    if (runs.length > 0) break;
  }
  return runs;
}

/** A colon, a leader of dots, "is" or "#" after the label says that its value follows on the line. */
export function pointsOn(label: Hit<unknown>): boolean {
  const words = label.page.lines[label.line]?.words ?? [];
  const last = words[label.to - 1]?.text ?? '';
  const next = words[label.to]?.text ?? '';
  return /[:=]$/.test(last) || /^(?:[:=]|[._…]{4,}|is$|#|no\.?:?$)/i.test(next);
}

/** Label and value stand far apart on their line. */
export function farApart(label: Spot, run: Run): boolean {
  const words = label.page.lines[label.line]?.words ?? [];
  return (
    run.from > label.to - 1 &&
    (words[run.from]?.box.x ?? 0) - right(words[label.to - 1]) > 2.5 * height(words[label.to - 1])
  );
}
