import { frame, leadings, rules } from '../measures.ts';
import { paperWording } from '../paper-wording.ts';
import type { Pen, TextStyle } from '../pen.ts';
import { wording } from '../wording.ts';

/** What stands in the title block at the foot of a written paper's first sheet. */
export interface TitleStrip {
  readonly owners: string;
  readonly place: string;
  readonly parcel: string;
  readonly lot: string;
  readonly date: string;
  /** Whom it is written for; empty where it is the owner's own. */
  readonly recipient: string;
  readonly code: string;
}

export interface PaperHead {
  /** The owner's own sheets are headed PRIVATE, like the errand sheet. */
  readonly own: boolean;
  readonly kicker: string;
  readonly title: string;
  /** "Tue 14 Apr 2026 · Heron Lane". */
  readonly under: string;
}

const ownBox = 24;

/** PRIVATE, in a ruled box across the top of an owner's own sheet. Returns the y where writing may begin. */
export function drawOwnBox(pen: Pen, head: PaperHead): number {
  if (!head.own) return frame.top;
  const y = frame.top - ownBox;
  pen.box({ x: frame.left, y, width: frame.right - frame.left, height: ownBox }, { stroke: 'ink', width: rules.firm });
  pen.text({ x: frame.left + 12, y: y + 8 }, wording.errand.private, { face: 'bold' });
  pen.text({ x: frame.right - 12, y: y + 8 }, paperWording.own, { size: 'small', tone: 'pencil', align: 'right' });
  return y - 8;
}

/** Kicker, title and a line under it on the first sheet. Returns the y below. */
export function drawPaperHead(pen: Pen, head: PaperHead): number {
  const x = frame.left;
  const width = frame.right - frame.left;
  let top = drawOwnBox(pen, head) - 4;
  top = pen.writeLines({ x, top }, pen.lines(head.kicker, width, { size: 'small', most: 1 }), {
    size: 'small',
    tone: 'pencil',
  });
  const title: TextStyle = { face: 'slab', size: 'title' };
  top = pen.writeLines({ x, top }, pen.lines(head.title, width, { ...title, most: 3 }), title);
  top = pen.writeLines({ x, top }, pen.lines(head.under, width, { size: 'small', most: 2 }), {
    size: 'small',
    tone: 'pencil',
  });
  pen.across(top - 8, x, frame.right, { width: rules.firm });
  return top - 16;
}

/** The short head of every further sheet. Returns the y below. */
export function drawRunningHead(pen: Pen, head: PaperHead): number {
  const y = drawOwnBox(pen, head) - 14;
  const [line = ''] = pen.lines(head.title, 380, { face: 'slab', most: 1 });
  const width = pen.text({ x: frame.left, y }, line, { face: 'slab' });
  pen.text({ x: frame.left + width + 8, y }, paperWording.continued, { size: 'small', tone: 'pencil' });
  pen.across(y - 6, frame.left, frame.right, { width: rules.firm });
  return y - 14;
}

interface Cell {
  readonly label: string;
  readonly value: string;
  readonly share: number;
  readonly style?: TextStyle;
}

function stripRows(strip: TitleStrip): readonly (readonly Cell[])[] {
  const words = paperWording.strip;
  const mono: TextStyle = { face: 'mono' };
  const recipient = strip.recipient === '' ? [] : [{ label: words.for, value: strip.recipient, share: 5 }];
  return [
    [
      { label: words.owner, value: strip.owners, share: 6 },
      { label: words.place, value: strip.place, share: 4 },
      { label: words.parcel, value: strip.parcel, share: 3, style: mono },
    ],
    [
      ...recipient,
      { label: words.lot, value: strip.lot, share: recipient.length === 0 ? 7 : 3 },
      { label: words.date, value: strip.date, share: 2 },
      { label: words.code, value: strip.code, share: 4, style: { ...mono, size: 'small' } },
    ],
  ];
}

interface LaidRow {
  readonly parts: readonly (Cell & { readonly x: number; readonly lines: readonly string[] })[];
  readonly height: number;
}

function layRow(pen: Pen, cells: readonly Cell[]): LaidRow {
  const whole = cells.reduce((sum, { share }) => sum + share, 0);
  let x: number = frame.left;
  const parts = cells.map((cell) => {
    const width = ((frame.right - frame.left) * cell.share) / whole;
    const part = { ...cell, x, lines: pen.lines(cell.value, width - 12, { ...cell.style, most: 2 }) };
    x += width;
    return part;
  });
  const tallest = Math.max(
    ...parts.map(({ lines, style }) => Math.max(1, lines.length) * leadings[style?.size ?? 'text']),
  );
  return { parts, height: Math.ceil((tallest + 18) / 4) * 4 };
}

/** How tall the title block will be. */
export function stripHeight(pen: Pen, strip: TitleStrip): number {
  return stripRows(strip).reduce((sum, cells) => sum + layRow(pen, cells).height, 0);
}

/** The title block across the foot of the first sheet. */
export function drawStrip(pen: Pen, strip: TitleStrip): void {
  const rows = stripRows(strip).map((cells) => layRow(pen, cells));
  const height = rows.reduce((sum, row) => sum + row.height, 0);
  let y = frame.bottom + height;
  pen.box(
    { x: frame.left, y: frame.bottom, width: frame.right - frame.left, height },
    { stroke: 'ink', width: rules.firm },
  );
  for (const row of rows) {
    for (const part of row.parts) {
      if (part.x > frame.left) pen.down(part.x, y, y - row.height, { width: rules.thin });
      pen.text({ x: part.x + 8, y: y - 11 }, part.label, { size: 'small', tone: 'pencil' });
      pen.writeLines({ x: part.x + 8, top: y - 14 }, part.lines, part.style);
    }
    y -= row.height;
    if (y > frame.bottom + 1) pen.across(y, frame.left, frame.right, { width: rules.thin });
  }
}

/** "Prepared by the owner. Not an official form.", at the end of the margin line. */
export function drawOwnWord(pen: Pen): void {
  pen.text({ x: frame.right, y: 28 }, wording.own, { size: 'small', tone: 'pencil', align: 'right' });
}
