import type { Tone } from '../drawing.ts';
import { type Block, type Piece, piecesOf } from '../flow.ts';
import { drawMark, type Mark } from '../marks.ts';
import { leadings, rules } from '../measures.ts';
import type { Pen, TextStyle } from '../pen.ts';

export interface TableColumn {
  readonly head: string;
  /** Part of the width, beside the other columns' shares. */
  readonly share: number;
  readonly face?: 'text' | 'bold' | 'mono' | undefined;
  readonly align?: 'right' | undefined;
}

/** What written papers are made of, beside the blocks of a running column. */
export type PaperBlock =
  | Block
  | {
      readonly block: 'table';
      readonly columns: readonly TableColumn[];
      readonly rows: readonly (readonly string[])[];
      /** Rows to fill in by hand are at least so tall. */
      readonly rowHeight?: number | undefined;
      /** Rows of sums, by their place: bold, a rule above. */
      readonly strong?: readonly number[] | undefined;
    }
  | {
      /** Large letters: an errand and what is recorded of it. */
      readonly block: 'large';
      readonly text: string;
      readonly state: string;
      readonly tone: Tone;
      readonly mark: Mark;
      readonly more: readonly string[];
      readonly writeIn?: string | undefined;
    }
  | { readonly block: 'notice'; readonly text: string; readonly tone: Tone }
  | { readonly block: 'lines'; readonly label: string; readonly count: number }
  | { readonly block: 'ticks'; readonly items: readonly { readonly word: string; readonly more: string }[] }
  | { readonly block: 'sign'; readonly fields: readonly string[] }
  | { readonly block: 'letter'; readonly lines: readonly string[] };

/** The strips of any block, to be run down a column. */
export function paperPieces(block: PaperBlock, width: number, pen: Pen): readonly Piece[] {
  switch (block.block) {
    case 'table':
      return tablePieces(block, width, pen);
    case 'large':
      return [largePiece(block, width, pen)];
    case 'notice':
      return [noticePiece(block, width, pen)];
    case 'lines':
      return linesPieces(block, width);
    case 'ticks':
      return block.items.map((item) => tickPiece(item, width, pen));
    case 'sign':
      return [signPiece(block.fields, width)];
    case 'letter':
      return letterPieces(block.lines, width, pen);
    default:
      return piecesOf(block, width, pen);
  }
}

interface PlacedColumn extends TableColumn {
  readonly x: number;
  readonly width: number;
}

const air = 8;
/** Words stand clear of the edge of the head's tint. */
const inset = 4;

function placed(columns: readonly TableColumn[], width: number): readonly PlacedColumn[] {
  const whole = columns.reduce((sum, { share }) => sum + share, 0);
  const room = width - 2 * inset + air;
  let x = inset;
  return columns.map((column) => {
    const place = { ...column, x, width: (room * column.share) / whole - air };
    x += (room * column.share) / whole;
    return place;
  });
}

function tablePieces(block: Extract<PaperBlock, { block: 'table' }>, width: number, pen: Pen): readonly Piece[] {
  const columns = placed(block.columns, width);
  const head = headPiece(columns, width);
  const rows = block.rows.map((cells, at): Piece => {
    const strong = block.strong?.includes(at) === true;
    const laid = columns.map((column, n) => {
      const style: TextStyle = { face: strong ? 'bold' : (column.face ?? 'text'), size: 'small' };
      return { column, style, lines: pen.lines(cells[n] ?? '', column.width, style) };
    });
    const most = Math.max(1, ...laid.map(({ lines }) => lines.length));
    const height = Math.max(block.rowHeight ?? 0, most * leadings.small + 8);
    return {
      height,
      keepNext: false,
      again: head,
      draw(to, x, top) {
        if (strong) to.across(top, x, x + width, { width: rules.thin });
        for (const { column, style, lines } of laid) drawCell(to, { x: x + column.x, top }, { column, style, lines });
        to.across(top - height, x, x + width, { tone: 'pencil' });
      },
    };
  });
  return [head, ...rows];
}

function drawCell(
  to: Pen,
  at: { readonly x: number; readonly top: number },
  cell: { readonly column: PlacedColumn; readonly style: TextStyle; readonly lines: readonly string[] },
): void {
  const { column, style, lines } = cell;
  if (column.align !== 'right') {
    to.writeLines({ x: at.x, top: at.top - 4 }, lines, style);
    return;
  }
  lines.forEach((line, n) => {
    to.text({ x: at.x + column.width, y: at.top - 13 - n * leadings.small }, line, { ...style, align: 'right' });
  });
}

function headPiece(columns: readonly PlacedColumn[], width: number): Piece {
  const height = 20;
  return {
    height,
    keepNext: true,
    draw(to, x, top) {
      to.box({ x, y: top - height, width, height }, { fill: 'card' });
      to.across(top, x, x + width, { width: rules.thin });
      to.across(top - height, x, x + width, { width: rules.thin });
      for (const column of columns) {
        const right = column.align === 'right';
        const edge = x + column.x + (right ? column.width : 0);
        to.text({ x: edge, y: top - 13 }, column.head, {
          size: 'small',
          face: 'bold',
          align: right ? 'right' : 'left',
        });
      }
    },
  };
}

/** A ruled box a person reads from across a trench: what, and what is recorded of it. */
function largePiece(block: Extract<PaperBlock, { block: 'large' }>, width: number, pen: Pen): Piece {
  const indent = 36;
  const title: TextStyle = { face: 'slab', size: 'title' };
  const state: TextStyle = { face: 'bold', size: 'head', tone: block.tone };
  const titles = pen.lines(block.text, width - indent - 12, { ...title, most: 3 });
  const states = pen.lines(block.state, width - indent - 12, { ...state, most: 3 });
  const more = block.more.flatMap((line) => pen.lines(line, width - indent - 12));
  const writeIn = block.writeIn === undefined ? 0 : 36;
  const inner = titles.length * leadings.title + states.length * leadings.head + more.length * leadings.text + writeIn;
  const height = inner + 32;
  return {
    height,
    keepNext: false,
    draw(to, x, top) {
      const box = { x, y: top - height + 8, width, height: height - 8 };
      to.box(box, { stroke: block.tone, width: rules.firm });
      drawMark(to, block.mark, { x: x + 18, y: top - 28, tone: block.tone });
      let below = to.writeLines({ x: x + indent, top: top - 8 }, titles, title);
      below = to.writeLines({ x: x + indent, top: below - 2 }, states, state);
      below = to.writeLines({ x: x + indent, top: below - 2 }, more);
      if (block.writeIn === undefined) return;
      to.across(below - 22, x + indent, x + width - 12, { width: rules.thin });
      to.text({ x: x + indent, y: below - 32 }, block.writeIn, { size: 'small', tone: 'pencil' });
    },
  };
}

function noticePiece(block: { readonly text: string; readonly tone: Tone }, width: number, pen: Pen): Piece {
  const style: TextStyle = { face: 'bold', size: 'head', tone: block.tone };
  const lines = pen.lines(block.text, width, style);
  return {
    height: lines.length * leadings.head + 12,
    keepNext: true,
    draw: (to, x, top) => void to.writeLines({ x, top: top - 2 }, lines, style),
  };
}

function linesPieces(block: { readonly label: string; readonly count: number }, width: number): readonly Piece[] {
  const label: Piece = {
    height: 16,
    keepNext: true,
    draw: (to, x, top) => void to.text({ x, y: top - 12 }, block.label, { size: 'small', tone: 'pencil' }),
  };
  const line = (n: number): Piece => ({
    height: 24,
    keepNext: n < block.count - 1,
    draw: (to, x, top) => to.across(top - 22, x, x + width, { width: rules.hair }),
  });
  const lines = Array.from({ length: block.count }, (_, n) => line(n));
  return block.label === '' ? lines : [label, ...lines];
}

function tickPiece(item: { readonly word: string; readonly more: string }, width: number, pen: Pen): Piece {
  const lines = pen.lines(item.more, width - 168, { size: 'small' });
  const height = Math.max(20, lines.length * leadings.small + 8);
  return {
    height,
    keepNext: false,
    draw(to, x, top) {
      to.box({ x: x + 0.5, y: top - 15, width: 11, height: 11 }, { stroke: 'ink' });
      to.text({ x: x + 22, y: top - 14 }, item.word, { face: 'bold' });
      to.writeLines({ x: x + 168, top: top - 4 }, lines, { size: 'small' });
      to.across(top - height, x, x + width, { tone: 'pencil' });
    },
  };
}

function signPiece(fields: readonly string[], width: number): Piece {
  const gap = 16;
  const part = (width - gap * (fields.length - 1)) / Math.max(1, fields.length);
  return {
    height: 64,
    keepNext: false,
    draw(to, x, top) {
      fields.forEach((field, n) => {
        const left = x + n * (part + gap);
        to.across(top - 44, left, left + part, { width: rules.thin });
        to.text({ x: left, y: top - 56 }, field, { size: 'small', tone: 'pencil' });
      });
    },
  };
}

/** Sentences of a letter, a blank step between them. */
function letterPieces(paragraphs: readonly string[], width: number, pen: Pen): readonly Piece[] {
  return paragraphs.flatMap((paragraph): readonly Piece[] => {
    const lines = pen.lines(paragraph, Math.min(width, 440));
    return lines.map((line, n) => ({
      height: leadings.text + (n === lines.length - 1 ? 8 : 0),
      keepNext: n < lines.length - 1,
      draw: (to, x, top) => void to.writeLines({ x, top }, [line]),
    }));
  });
}
