import type { Drawing, FontMetrics } from '../drawing.ts';
import { type Block, flowBlocks, pensFor } from '../flow.ts';
import { frame, rules } from '../measures.ts';
import type { Pen } from '../pen.ts';
import { wording } from '../wording.ts';
import { drawMargin, type Margin } from './furniture.ts';

export interface ErrandSheet {
  readonly title: string;
  /** "Mon 14 Apr 2026 · Heron Lane". */
  readonly under: string;
  readonly blocks: readonly Block[];
  margin(sheet: number, of: number): Margin;
}

/** A field book: writing on the left, ruled squares for notes on the right. */
const left = { x: frame.left, width: 328 } as const;
const grid = { x: frame.left + 344, right: frame.right } as const;
const square = 12;
/** Dots rather than lines: light on every printer; three points divide a square evenly. */
const dots = { width: 0.5, tone: 'pencil', dash: [0.6, 2.4] } as const;

/** The owner's own sheet for the errand; it never goes into a packet. */
export function errandSheets(errand: ErrandSheet, metrics: FontMetrics, replaced: Set<string>): readonly Drawing[] {
  const { penOf, all } = pensFor(metrics, replaced);
  const headed = frame.top - 32;
  const title = penOf(0).lines(errand.title, left.width, { face: 'slab', size: 'title', most: 3 });
  const under = penOf(0).lines(errand.under, left.width, { size: 'small', most: 2 });
  const first = headed - 8 - title.length * 32 - under.length * 12 - 4;
  const below = penOf(0).writeLines({ x: left.x, top: headed - 8 }, title, { face: 'slab', size: 'title' });
  penOf(0).writeLines({ x: left.x, top: below }, under, { size: 'small', tone: 'pencil' });
  const column = { ...left, bottom: frame.bottom, top: (sheet: number) => (sheet === 0 ? first : headed) };
  const count = flowBlocks(errand.blocks, column, penOf);
  all().forEach((pen, sheet) => {
    drawHead(pen);
    drawGrid(pen);
    drawMargin(pen, errand.margin(sheet, count));
    pen.text({ x: frame.right, y: 28 }, wording.errand.decide, { size: 'small', tone: 'pencil', align: 'right' });
  });
  return all().map((pen) => pen.drawing());
}

/** PRIVATE, in a ruled box across the top: the first thing anyone reads. */
function drawHead(pen: Pen): void {
  const y = frame.top - 24;
  pen.box({ x: frame.left, y, width: frame.right - frame.left, height: 24 }, { stroke: 'ink', width: rules.firm });
  pen.text({ x: frame.left + 12, y: y + 8 }, wording.errand.private, { face: 'bold' });
  pen.text({ x: frame.right - 12, y: y + 8 }, wording.errand.own, { size: 'small', tone: 'pencil', align: 'right' });
}

function drawGrid(pen: Pen): void {
  const columns = Math.floor((grid.right - grid.x) / square);
  const x = grid.right - columns * square;
  const top = frame.top - 56;
  const rows = Math.floor((top - frame.bottom) / square);
  const bottom = top - rows * square;
  pen.text({ x, y: top + 6 }, wording.errand.notes, { size: 'small', tone: 'pencil' });
  for (let n = 1; n < columns; n += 1) pen.down(x + n * square, top, bottom, dots);
  for (let n = 1; n < rows; n += 1) pen.across(top - n * square, x, grid.right, dots);
  pen.box({ x, y: bottom, width: grid.right - x, height: top - bottom }, { stroke: 'pencil', width: rules.thin });
}
