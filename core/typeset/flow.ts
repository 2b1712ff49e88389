import type { FontMetrics } from './drawing.ts';
import { type Bar, barTone, drawBar } from './marks.ts';
import { leadings, rules } from './measures.ts';
import { Pen, type TextStyle } from './pen.ts';
import { wording } from './wording.ts';

/** What a running column is made of. */
export type Block =
  | { readonly block: 'heading'; readonly text: string }
  | { readonly block: 'text'; readonly text: string; readonly quiet?: boolean }
  | { readonly block: 'field'; readonly label: string; readonly value: string; readonly mono?: boolean }
  | { readonly block: 'item'; readonly text: string; readonly more?: string | undefined }
  | {
      readonly block: 'finding';
      readonly bar: Bar;
      /** What, and what to do about it: one or several that share their reason. */
      readonly says: readonly { readonly say: string; readonly remedy: string }[];
      readonly lines: readonly { readonly label: string; readonly text: string }[];
    }
  | { readonly block: 'space' };

/** A strip of the column that is never cut in two: drawn at (x, top). */
export interface Piece {
  readonly height: number;
  /** Stays on the sheet of the piece that follows. */
  readonly keepNext: boolean;
  /** Stands once more above this piece where it begins a sheet: the head of a table. */
  readonly again?: Piece | undefined;
  /** A margin bar that runs on through the pieces of the same finding. */
  readonly bar?: { readonly bar: Bar; readonly finding: object } | undefined;
  draw(pen: Pen, x: number, top: number): void;
}

export interface Column {
  readonly x: number;
  readonly width: number;
  readonly bottom: number;
  /** Where writing starts on the nth sheet, 0-based. */
  top(sheet: number): number;
  /** Where it ends on the nth sheet, where that isn't `bottom`. */
  foot?(sheet: number): number;
}

/**
 * Runs blocks down a column and over as many sheets as they need. Lines are never cut; a heading
 * stays with what follows it. `penOf` hands out the pen of each sheet, in order.
 * @returns the number of sheets used.
 */
export function flowBlocks(blocks: readonly Block[], column: Column, penOf: (sheet: number) => Pen): number {
  const pieces = blocks.flatMap((block, at) => {
    const own = piecesOf(block, column.width, penOf(0));
    return stays(blocks, at) ? own.map((piece) => ({ ...piece, keepNext: true })) : own;
  });
  return flowPieces(pieces, column, penOf);
}

/** More rows of a table than these may go over two sheets. */
const mostTogether = 11;

/**
 * A short table of fields isn't cut, and of a list no single line is left alone: neither the first under its heading
 * nor the last on a sheet of its own.
 */
function stays(blocks: readonly Block[], at: number): boolean {
  const sort = blocks[at]?.block;
  // A note on a list stands under it.
  if (sort === 'item' && blocks[at + 1]?.block === 'space' && blocks[at + 2]?.block === 'text') return true;
  if ((sort !== 'field' && sort !== 'item') || blocks[at + 1]?.block !== sort) return false;
  const before = blocks.slice(0, at).findLastIndex(({ block }) => block !== sort) + 1;
  const end = blocks.findIndex(({ block }, n) => n > at && block !== sort);
  const after = end === -1 ? blocks.length : end;
  return sort === 'field' ? after - before <= mostTogether : at === before || at === after - 2;
}

/** The same for pieces of any making. */
export function flowPieces(pieces: readonly Piece[], column: Column, penOf: (sheet: number) => Pen): number {
  const bars = new BarRuns(column.x, penOf);
  let sheet = 0;
  let top = column.top(0);
  pieces.forEach((piece, at) => {
    const bottom = column.foot?.(sheet) ?? column.bottom;
    const room = top - bottom;
    const full = column.top(sheet) - bottom;
    if (keptHeight(pieces, at) > room && room < full - 0.01) {
      sheet += 1;
      top = column.top(sheet);
      piece.again?.draw(penOf(sheet), column.x, top);
      top -= piece.again?.height ?? 0;
    }
    piece.draw(penOf(sheet), column.x, top);
    bars.go(piece, { sheet, top, bottom: top - piece.height });
    top -= piece.height;
  });
  bars.end();
  return sheet + 1;
}

interface Run {
  readonly bar: Bar;
  readonly finding: object;
  readonly sheet: number;
  readonly top: number;
  readonly bottom: number;
  readonly begins: boolean;
}

/** Joins the bars of neighbouring pieces into one, and draws each when its run ends. */
class BarRuns {
  readonly #x: number;
  readonly #penOf: (sheet: number) => Pen;
  #run: Run | undefined;

  constructor(x: number, penOf: (sheet: number) => Pen) {
    this.#x = x;
    this.#penOf = penOf;
  }

  go(piece: Piece, at: { readonly sheet: number; readonly top: number; readonly bottom: number }): void {
    const run = this.#run;
    if (run !== undefined && run.finding === piece.bar?.finding && run.sheet === at.sheet) {
      this.#run = { ...run, bottom: at.bottom };
      return;
    }
    this.end();
    const begins = piece.bar?.finding !== run?.finding;
    this.#run = piece.bar === undefined ? undefined : { ...piece.bar, ...at, begins };
  }

  end(): void {
    const run = this.#run;
    this.#run = undefined;
    if (run === undefined || (run.bar === 'good to know' && !run.begins)) return;
    drawBar(this.#penOf(run.sheet), run.bar, { x: this.#x, top: run.top - 1, bottom: run.bottom });
  }
}

/** Height of the piece with all it must stay together with; a chain taller than a sheet is cut anyway. */
function keptHeight(pieces: readonly Piece[], from: number): number {
  let height = 0;
  for (const piece of pieces.slice(from, from + mostTogether + 1)) {
    height += piece.height;
    if (!piece.keepNext) break;
  }
  return height;
}

/** The strips a block is made of, in order. */
export function piecesOf(block: Block, width: number, pen: Pen): readonly Piece[] {
  switch (block.block) {
    case 'heading':
      return [headingPiece(block.text, width)];
    case 'text':
      return linePieces(pen.lines(block.text, width, quiet(block.quiet)), { indent: 0, style: quiet(block.quiet) });
    case 'field':
      return fieldPieces(block, width, pen);
    case 'item':
      return itemPieces(block, width, pen);
    case 'finding':
      return findingPieces(block, width, pen);
    case 'space':
      // What comes after a heading stays with it, a step of air between them or not.
      return [{ height: 8, keepNext: true, draw: () => undefined }];
  }
}

const quiet = (is: boolean | undefined): TextStyle => (is === true ? { size: 'small', tone: 'pencil' } : {});

function headingPiece(text: string, width: number): Piece {
  return {
    height: 32,
    keepNext: true,
    draw(pen, x, top) {
      pen.text({ x, y: top - 22 }, text, { face: 'slab' });
      pen.across(top - 28, x, x + width, { width: rules.thin });
    },
  };
}

interface LineLook {
  readonly indent: number;
  readonly style: TextStyle;
  readonly keepLast?: boolean;
}

function linePieces(lines: readonly string[], look: LineLook): readonly Piece[] {
  const height = leadings[look.style.size ?? 'text'];
  return lines.map((line, at) => ({
    height,
    keepNext: at < lines.length - 1 || look.keepLast === true,
    draw(pen, x, top) {
      pen.writeLines({ x: x + look.indent, top }, [line], look.style);
    },
  }));
}

const labelWidth = 80;

function fieldPieces(
  block: { readonly label: string; readonly value: string; readonly mono?: boolean },
  width: number,
  pen: Pen,
): readonly Piece[] {
  const style: TextStyle = block.mono === true ? { face: 'mono' } : {};
  const lines = pen.lines(block.value, width - labelWidth, style);
  const height = Math.max(1, lines.length) * leadings.text + 4;
  const draw: Piece['draw'] = (to, x, top) => {
    to.text({ x, y: top - 11 }, block.label, { size: 'small', tone: 'pencil' });
    to.writeLines({ x: x + labelWidth, top: top - 1 }, lines, style);
    to.across(top - height + 0.5, x, x + width, { tone: 'pencil' });
  };
  return [{ height, keepNext: false, draw }];
}

/** An open square to tick with a pencil, the text, and a quieter line under it. */
function itemPieces(
  block: { readonly text: string; readonly more?: string | undefined },
  width: number,
  pen: Pen,
): readonly Piece[] {
  const lines = pen.lines(block.text, width - 20);
  const more = block.more === undefined ? [] : pen.lines(block.more, width - 20, { size: 'small' });
  const height = lines.length * leadings.text + more.length * leadings.small + 6;
  const draw: Piece['draw'] = (to, x, top) => {
    to.box({ x: x + 0.5, y: top - 13, width: 9, height: 9 }, { stroke: 'ink' });
    const below = to.writeLines({ x: x + 20, top: top - 2 }, lines);
    to.writeLines({ x: x + 20, top: below }, more, { size: 'small', tone: 'pencil' });
  };
  return [{ height, keepNext: false, draw }];
}

type FindingBlock = Extract<Block, { block: 'finding' }>;

/** Word, sentences with their remedies, why and on whose word, beside one margin bar that may go over sheets. */
function findingPieces(block: FindingBlock, width: number, pen: Pen): readonly Piece[] {
  const word: TextStyle = { face: 'bold', size: 'small', tone: barTone(block.bar) };
  const labelled = (line: { readonly label: string; readonly text: string }, keepLast: boolean): readonly Piece[] =>
    labelledPieces(line.label, pen.lines(line.text, width - indent - hang, { size: 'small' }), keepLast);
  const told = block.says.flatMap(({ say, remedy }, at) => {
    const sameAgain = block.says[at + 1]?.remedy === remedy;
    const bold = { indent, style: { face: 'bold' }, keepLast: !sameAgain } as const;
    return [
      ...(at > 0 && block.says[at - 1]?.remedy !== remedy ? [gap(3)] : []),
      ...linePieces(pen.lines(say, width - indent, { face: 'bold' }), bold),
      // The last keeps its reason with it.
      ...(sameAgain ? [] : labelled({ label: wording.errand.remedy, text: remedy }, at === block.says.length - 1)),
    ];
  });
  const inner: readonly Piece[] = [
    ...linePieces([block.bar.toUpperCase()], { indent, style: word, keepLast: true }),
    ...told,
    ...block.lines.flatMap((line, at) => labelled(line, at < block.lines.length - 1)),
  ];
  const bar = { bar: block.bar, finding: block };
  return [gap(8), ...inner.map((piece) => ({ ...piece, bar }))];
}

const indent = 16;
const hang = 40;

function gap(height: number): Piece {
  return { height, keepNext: true, draw: () => undefined };
}

function labelledPieces(label: string, lines: readonly string[], keepLast: boolean): readonly Piece[] {
  return lines.map((text, at) => ({
    height: leadings.small,
    keepNext: keepLast || at < lines.length - 1,
    draw(to, x, top) {
      if (at === 0) to.writeLines({ x: x + indent, top }, [label], { size: 'small', tone: 'pencil' });
      to.writeLines({ x: x + indent + hang, top }, [text], { size: 'small' });
    },
  }));
}

/** A pen per sheet, made when first asked for. */
export function pensFor(
  metrics: FontMetrics,
  replaced: Set<string>,
): { penOf(sheet: number): Pen; all(): readonly Pen[] } {
  const pens: Pen[] = [];
  return {
    penOf(sheet) {
      while (pens.length <= sheet) pens.push(new Pen(metrics, replaced));
      return pens[sheet] ?? new Pen(metrics, replaced);
    },
    all: () => pens,
  };
}
