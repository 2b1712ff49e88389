import type { Drawing, FontMetrics } from '../drawing.ts';
import { frame, leadings, rules } from '../measures.ts';
import { Pen } from '../pen.ts';
import { drawMargin } from './furniture.ts';
import { drawOwnWord, drawPaperHead, drawRunningHead, drawStrip, stripHeight } from './paper-frame.ts';
import { paperMargin, type WrittenPaper } from './written-paper.ts';

export interface PhotoCaption {
  /** What it shows. */
  readonly title: string;
  /** "north wall · framing · 3 Aug 2026". */
  readonly under: string;
}

/** Where a photo is to be laid, 0-based sheet; it is fitted into the box, never cut. */
export interface PhotoPlace {
  readonly sheet: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface PhotoSheets {
  readonly drawings: readonly Drawing[];
  /** In the order of the captions. */
  readonly places: readonly PhotoPlace[];
}

export interface PhotoPaper extends Pick<WrittenPaper, 'head' | 'strip'> {
  readonly captions: readonly PhotoCaption[];
  readonly perSheet: 2 | 4;
}

const gap = 16;
const captionHeight = leadings.text * 2 + leadings.small + 8;

interface Cell {
  readonly x: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** The cells of a sheet between its head and its foot: two below each other, or two by two. */
function cellsOf(perSheet: 2 | 4, top: number, bottom: number): readonly Cell[] {
  const columns = perSheet === 4 ? 2 : 1;
  const width = (frame.right - frame.left - gap * (columns - 1)) / columns;
  const height = (top - bottom - gap) / 2;
  return Array.from({ length: perSheet }, (_, n) => ({
    x: frame.left + (n % columns) * (width + gap),
    top: top - Math.floor(n / columns) * (height + gap),
    width,
    height,
  }));
}

/** Photos with their captions, two or four to a sheet. The pictures are laid in when the sheets are drawn. */
export function photoSheets(paper: PhotoPaper, metrics: FontMetrics, replaced: Set<string>): PhotoSheets {
  const places: PhotoPlace[] = [];
  const drawings: Drawing[] = [];
  const { captions, perSheet, strip, head } = paper;
  const of = Math.max(1, Math.ceil(captions.length / perSheet));
  for (let sheet = 0; sheet < of; sheet += 1) {
    const pen = new Pen(metrics, replaced);
    const top = sheet === 0 ? drawPaperHead(pen, head) : drawRunningHead(pen, head);
    const bottom = frame.bottom + (sheet === 0 ? stripHeight(pen, strip) + 12 : 0);
    const here = captions.slice(sheet * perSheet, (sheet + 1) * perSheet);
    const cells = cellsOf(perSheet, top, bottom);
    for (const [n, caption] of here.entries()) {
      const cell = cells[n];
      if (cell === undefined) continue;
      drawCaption(pen, caption, cell);
      const y = cell.top - cell.height + captionHeight + 4;
      places.push({ sheet, x: cell.x, y, width: cell.width, height: cell.height - captionHeight - 4 });
    }
    if (sheet === 0) drawStrip(pen, strip);
    drawMargin(pen, paperMargin(strip.code, { sheet, of }, false));
    drawOwnWord(pen);
    drawings.push(pen.drawing());
  }
  return { drawings, places };
}

function drawCaption(pen: Pen, caption: PhotoCaption, cell: Cell): void {
  const top = cell.top - cell.height + captionHeight - 2;
  const titles = pen.lines(caption.title, cell.width, { face: 'bold', most: 2 });
  const below = pen.writeLines({ x: cell.x, top }, titles, { face: 'bold' });
  const under = pen.lines(caption.under, cell.width, { size: 'small', most: 1 });
  pen.writeLines({ x: cell.x, top: below }, under, { size: 'small', tone: 'pencil' });
  pen.across(cell.top - cell.height, cell.x, cell.x + cell.width, { width: rules.hair, tone: 'pencil' });
}
