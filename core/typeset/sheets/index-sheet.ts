import type { Drawing, Face, FontMetrics } from '../drawing.ts';
import { drawMark, type Mark } from '../marks.ts';
import { frame, leadings, rules } from '../measures.ts';
import { Pen } from '../pen.ts';
import { wording } from '../wording.ts';
import { drawMargin, type Margin } from './furniture.ts';

export interface IndexRow {
  readonly tab: string;
  readonly mark: Mark;
  readonly paper: string;
  /** The state in words under the title: "MISSING", "BESIDE: the file ...". */
  readonly state?: string | undefined;
  readonly issuedBy: string;
  readonly number: string;
  readonly dated: string;
  readonly goodThrough: string;
  readonly sheets: string;
  /** 0-based sheet of this file. */
  readonly toSheet?: number | undefined;
}

export interface IndexSheets {
  readonly title: string;
  readonly lot: string;
  readonly rows: readonly IndexRow[];
  readonly legend: readonly { readonly mark: Mark; readonly word: string }[];
  /** The margin of the nth index sheet, 0-based. */
  margin(sheet: number): Margin;
}

type Column = 'tab' | 'paper' | 'issued' | 'number' | 'dated' | 'good' | 'sheets';

interface ColumnPlace {
  readonly x: number;
  readonly width: number;
  readonly face: Face;
  readonly align: 'left' | 'right';
}

/** From left to right, each with 8 points of air before the next; together as wide as the frame. */
const columns: Readonly<Record<Column, ColumnPlace>> = {
  tab: { x: 0, width: 28, face: 'mono', align: 'left' },
  paper: { x: 36, width: 144, face: 'bold', align: 'left' },
  issued: { x: 188, width: 86, face: 'text', align: 'left' },
  number: { x: 282, width: 82, face: 'mono', align: 'left' },
  dated: { x: 372, width: 46, face: 'text', align: 'left' },
  good: { x: 426, width: 50, face: 'text', align: 'left' },
  sheets: { x: 480, width: 36, face: 'mono', align: 'right' },
};

const headHeight = 24;
const padding = 5;

interface LaidRow {
  readonly row: IndexRow;
  readonly cells: Readonly<Record<Exclude<Column, 'tab'>, readonly string[]>>;
  readonly state: readonly string[];
  readonly height: number;
}

/** The schedule of papers, over as many sheets as it needs, its head repeated on each. */
export function indexSheets(index: IndexSheets, metrics: FontMetrics, replaced: Set<string>): readonly Drawing[] {
  const measure = new Pen(metrics);
  const laid = index.rows.map((row) => layRow(measure, row));
  const drawings: Drawing[] = [];
  let at = 0;
  do {
    const pen = new Pen(metrics, replaced);
    let top = drawHead(pen, index, drawings.length > 0);
    const floor = frame.bottom + 40;
    const first = at;
    for (let row = laid[at]; row !== undefined && (at === first || top - row.height >= floor); row = laid[at]) {
      drawRow(pen, row, top);
      top -= row.height;
      at += 1;
    }
    if (index.rows.length === 0) {
      pen.text({ x: frame.left, y: top - 16 }, wording.index.none);
      top -= 28;
    }
    pen.across(top, frame.left, frame.right, { width: rules.firm });
    if (at >= laid.length) drawLegend(pen, index, top);
    drawMargin(pen, index.margin(drawings.length));
    drawings.push(pen.drawing());
  } while (at < laid.length);
  return drawings;
}

function layRow(pen: Pen, row: IndexRow): LaidRow {
  const cell = (column: Column, text: string, most: number): readonly string[] => {
    const { width, face } = columns[column];
    return pen.lines(text, width, { face, size: column === 'paper' ? 'text' : 'small', most });
  };
  const cells = {
    paper: cell('paper', row.paper, 4),
    issued: cell('issued', row.issuedBy, 4),
    number: cell('number', row.number, 4),
    dated: cell('dated', row.dated, 2),
    good: cell('good', row.goodThrough, 2),
    sheets: cell('sheets', row.sheets, 2),
  };
  const state = row.state === undefined ? [] : pen.lines(row.state, columns.paper.width, { size: 'small', most: 5 });
  const small = Math.max(
    ...[cells.issued, cells.number, cells.dated, cells.good, cells.sheets].map((one) => one.length),
  );
  const paper = cells.paper.length * leadings.text + state.length * leadings.small;
  const height = Math.max(14, small * leadings.small, paper) + 2 * padding;
  return { row, cells, state, height: Math.ceil(height / 4) * 4 };
}

function drawHead(pen: Pen, index: IndexSheets, continued: boolean): number {
  const y = frame.top - 20;
  const words = wording.index;
  const width = pen.text({ x: frame.left, y }, words.title, { face: 'slab', size: 'head' });
  if (continued) pen.text({ x: frame.left + width + 8, y }, words.continued, { size: 'small', tone: 'pencil' });
  const room = frame.right - frame.left - width - 88;
  const [line = ''] = pen.lines(`${index.title} · ${index.lot}`, room, { size: 'small', most: 1 });
  pen.text({ x: frame.right, y }, line, { size: 'small', tone: 'pencil', align: 'right' });
  const top = frame.top - 32;
  const box = { x: frame.left, y: top - headHeight, width: frame.right - frame.left, height: headHeight };
  pen.box(box, { fill: 'card' });
  pen.across(top, frame.left, frame.right, { width: rules.firm });
  pen.across(top - headHeight, frame.left, frame.right, { width: rules.thin });
  for (const [column, word] of Object.entries(words.columns)) {
    const { x, width: wide, align } = columnOf(column);
    const edge = frame.left + x + (align === 'right' ? wide : 0);
    pen.text({ x: edge, y: top - 15 }, word, { size: 'small', face: 'bold', align });
  }
  return top - headHeight;
}

function columnOf(name: string): ColumnPlace {
  for (const [column, place] of Object.entries(columns)) if (column === name) return place;
  return columns.paper;
}

function drawRow(pen: Pen, laid: LaidRow, top: number): void {
  const { row, cells, state, height } = laid;
  const x = (column: Column): number => frame.left + columns[column].x;
  drawMark(pen, row.mark, { x: frame.left + 6, y: top - padding - 7 });
  pen.text({ x: x('tab') + columns.tab.width, y: top - padding - 10 }, row.tab, { face: 'mono', align: 'right' });
  const below = pen.writeLines({ x: x('paper'), top: top - padding }, cells.paper, { face: 'bold' });
  pen.writeLines({ x: x('paper'), top: below }, state, { size: 'small' });
  for (const column of ['issued', 'number', 'dated', 'good'] as const) {
    const style = { face: columns[column].face, size: 'small' } as const;
    pen.writeLines({ x: x(column), top: top - padding - 1 }, cells[column], style);
  }
  cells.sheets.forEach((line, n) => {
    const y = top - padding - 10 - n * leadings.small;
    pen.text({ x: x('sheets') + columns.sheets.width, y }, line, { face: 'mono', size: 'small', align: 'right' });
  });
  pen.across(top - height, frame.left, frame.right, { tone: 'pencil' });
  if (row.toSheet !== undefined) {
    pen.link({ x: frame.left, y: top - height, width: frame.right - frame.left, height }, row.toSheet);
  }
}

/** What the marks mean, once, under the last row. */
function drawLegend(pen: Pen, index: IndexSheets, top: number): void {
  let x = frame.left + 4;
  let y = top - 20;
  for (const { mark, word } of index.legend) {
    const width = 14 + pen.widthOf(word, { size: 'small' }) + 16;
    if (x + width > frame.right && x > frame.left + 4) {
      x = frame.left + 4;
      y -= 12;
    }
    drawMark(pen, mark, { x: x + 2, y: y + 3, tone: 'pencil' });
    pen.text({ x: x + 12, y }, word, { size: 'small', tone: 'pencil' });
    x += width;
  }
}
