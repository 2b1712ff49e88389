import type { Drawing, FontMetrics } from '../drawing.ts';
import { frame, leadings, rules } from '../measures.ts';
import { Pen, type TextStyle } from '../pen.ts';
import { wording } from '../wording.ts';
import { drawMargin, type Margin } from './furniture.ts';

export interface CoverSheet {
  readonly margin: Margin;
  readonly title: string;
  readonly recipient: string;
  readonly lot: string;
  readonly place: string;
  readonly parcel: string;
  readonly owners: string;
  readonly date: string;
  /** One of the three stands in the title block: sheets, files or which volume. */
  readonly sheets?: string | undefined;
  readonly files?: string | undefined;
  readonly volume?: string | undefined;
  /** "9 papers in 10 tabs, 92 sheets". */
  readonly count: string;
  readonly holds: readonly { readonly from: string; readonly papers: string }[];
  readonly lists: readonly { readonly title: string; readonly items: readonly string[] }[];
  readonly toIndex?: number | undefined;
}

/** The clerk's space: 3 by 3 inches, empty, at the upper right where a stamp is looked for. */
const clerk = { x: frame.right - 224, y: frame.top - 224, width: 216, height: 216 } as const;
const block = { left: 304, width: frame.right - 304 } as const;
const gutter = 24;

/** The cover: a drawing sheet with its title block at the lower right. */
export function coverSheet(cover: CoverSheet, metrics: FontMetrics, replaced: Set<string>): Drawing {
  const pen = new Pen(metrics, replaced);
  pen.box(
    { x: frame.left, y: frame.bottom, width: frame.right - frame.left, height: frame.top - frame.bottom },
    { stroke: 'ink', width: rules.firm },
  );
  drawClerkSpace(pen);
  drawHeading(pen, cover);
  const blockTop = drawTitleBlock(pen, cover);
  const below = drawHolds(pen, cover, blockTop + 12);
  drawLists(pen, cover, below);
  drawMargin(pen, cover.margin);
  return pen.drawing();
}

function drawClerkSpace(pen: Pen): void {
  const { x, y, width, height } = clerk;
  const tick = 12;
  for (const [cornerX, towardX] of [
    [x, 1],
    [x + width, -1],
  ] as const) {
    for (const [cornerY, towardY] of [
      [y, 1],
      [y + height, -1],
    ] as const) {
      pen.shape(
        [
          [cornerX + towardX * tick, cornerY],
          [cornerX, cornerY],
          [cornerX, cornerY + towardY * tick],
        ],
        {
          stroke: 'pencil',
          width: rules.hair,
          open: true,
        },
      );
    }
  }
  pen.text({ x: x + width, y: y - 12 }, wording.cover.office, { size: 'small', tone: 'pencil', align: 'right' });
}

function drawHeading(pen: Pen, cover: CoverSheet): void {
  const x = frame.left + 16;
  const width = clerk.x - gutter - x;
  let top = frame.top - 16;
  const write = (text: string, most: number, style: TextStyle): void => {
    top = pen.writeLines({ x, top }, pen.lines(text, width, { ...style, most }), style);
  };
  write(wording.cover.kicker, 1, { size: 'small', tone: 'pencil' });
  write(cover.recipient, 2, { size: 'head' });
  top -= 16;
  write(cover.title, 4, { face: 'slab', size: 'title' });
  top -= 8;
  write(cover.lot, 1, { size: 'head' });
}

interface Cell {
  readonly label: string;
  readonly value: string;
  readonly most: number;
  readonly style?: TextStyle;
  /** Part of the row's width, in quarters; the cells of a row make four. */
  readonly quarters?: number;
}

function titleRows(cover: CoverSheet): readonly (readonly Cell[])[] {
  const words = wording.cover;
  const mono: TextStyle = { face: 'mono' };
  const extent =
    cover.volume !== undefined
      ? { label: words.volume, value: cover.volume }
      : cover.files !== undefined
        ? { label: words.files, value: cover.files }
        : { label: words.sheets, value: cover.sheets ?? '' };
  return [
    [{ label: words.packet, value: cover.title, most: 3, style: { face: 'slab', size: 'head' } }],
    [{ label: words.prepared, value: cover.recipient, most: 2 }],
    [{ label: words.owners, value: cover.owners, most: 4 }],
    [{ label: words.place, value: cover.place, most: 2 }],
    [
      { label: words.lot, value: cover.lot, most: 2 },
      { label: words.parcel, value: cover.parcel, most: 2, style: mono },
    ],
    [
      { label: words.date, value: cover.date, most: 1, quarters: 1 },
      { ...extent, most: 1, quarters: 1 },
      { label: words.code, value: cover.margin.code, most: 2, style: { ...mono, size: 'small' }, quarters: 2 },
    ],
  ];
}

interface LaidCells {
  readonly parts: readonly (Cell & { readonly x: number; readonly lines: readonly string[] })[];
  readonly height: number;
}

function layCells(pen: Pen, cells: readonly Cell[]): LaidCells {
  let x: number = block.left;
  const parts = cells.map((cell) => {
    const width = (block.width * (cell.quarters ?? 4 / cells.length)) / 4;
    const part = { ...cell, x, lines: pen.lines(cell.value, width - 12, { ...cell.style, most: cell.most }) };
    x += width;
    return part;
  });
  const tallest = Math.max(
    ...parts.map(({ lines, style }) => Math.max(1, lines.length) * leadings[style?.size ?? 'text']),
  );
  return { parts, height: Math.ceil((tallest + 18) / 4) * 4 };
}

/** Ruled from the bottom up; returns its upper edge. */
function drawTitleBlock(pen: Pen, cover: CoverSheet): number {
  const laid = titleRows(cover).map((cells) => layCells(pen, cells));
  const foot = 24;
  const top = frame.bottom + foot + laid.reduce((sum, row) => sum + row.height, 0);
  const box = { x: block.left, y: frame.bottom, width: block.width, height: top - frame.bottom };
  pen.box(box, { stroke: 'ink', width: rules.firm });
  let y = top;
  for (const row of laid) {
    for (const part of row.parts) {
      if (part.x > block.left) pen.down(part.x, y, y - row.height, { width: rules.thin });
      pen.text({ x: part.x + 8, y: y - 11 }, part.label, { size: 'small', tone: 'pencil' });
      pen.writeLines({ x: part.x + 8, top: y - 14 }, part.lines, part.style);
    }
    y -= row.height;
    pen.across(y, block.left, frame.right, { width: rules.thin });
  }
  pen.text({ x: block.left + 8, y: frame.bottom + 9 }, wording.own, { size: 'small' });
  return top;
}

/** What the packet holds, over the full width, down to the title block. Returns the y below. */
function drawHolds(pen: Pen, cover: CoverSheet, floor: number): number {
  const x = frame.left + 16;
  const right = frame.right - 16;
  let top = clerk.y - 32;
  const titleWidth = pen.text({ x, y: top }, wording.cover.holds, { face: 'bold' });
  const countWidth = pen.text({ x: right, y: top }, cover.count, { size: 'small', tone: 'pencil', align: 'right' });
  if (cover.toIndex !== undefined) {
    pen.link({ x, y: top - 4, width: titleWidth, height: 14 }, cover.toIndex);
    pen.link({ x: right - countWidth, y: top - 4, width: countWidth, height: 14 }, cover.toIndex);
  }
  top -= 8;
  pen.across(top, x, right, { width: rules.thin });
  if (cover.holds.length === 0) {
    return pen.writeLines({ x, top: top - 2 }, [wording.cover.none], { tone: 'pencil' });
  }
  for (const [index, group] of cover.holds.entries()) {
    const from = pen.lines(group.from, 136, { size: 'small', most: 2 });
    const papers = pen.lines(group.papers, right - x - 152, { most: 5 });
    const height = Math.max(from.length * leadings.small, papers.length * leadings.text) + 4;
    const last = index === cover.holds.length - 1;
    if (top - height < floor + (last ? 0 : 16)) {
      const say = `${cover.holds.length - index} ${wording.cover.rest}`;
      pen.text({ x: x + 152, y: top - 12 }, say, { size: 'small', tone: 'pencil' });
      return top - 16;
    }
    pen.writeLines({ x, top: top - 3 }, from, { size: 'small', tone: 'pencil' });
    pen.writeLines({ x: x + 152, top: top - 2 }, papers);
    top -= height;
    pen.across(top, x, right, { tone: 'pencil' });
  }
  return top;
}

/** To follow, beside, by hand: at the lower left, next to the title block. */
function drawLists(pen: Pen, cover: CoverSheet, ceiling: number): void {
  const x = frame.left + 16;
  const width = block.left - gutter - x;
  const floor = frame.bottom + 16;
  let top = ceiling - 24;
  for (const list of cover.lists) {
    if (top - 36 < floor) return;
    top = pen.writeLines({ x, top }, [list.title], { face: 'bold' });
    pen.across(top, x, x + width, { width: rules.thin });
    top -= 2;
    for (const item of list.items) {
      const lines = pen.lines(item, width, { size: 'small' });
      if (top - lines.length * leadings.small < floor + leadings.small) {
        top = pen.writeLines({ x, top }, [wording.cover.rest], { size: 'small', tone: 'pencil' });
        break;
      }
      top = pen.writeLines({ x, top }, lines, { size: 'small' });
    }
    top -= 12;
  }
}
