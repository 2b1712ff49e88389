import type { FontMetrics } from '../typeset/drawing.ts';
import type { BlankField, FieldPlace } from './form-model.ts';

/** Letters smaller than this nobody reads at a counter (common practice, no source). */
const smallest = 6;
/** What readers take for several lines where a form leaves the size open (common practice, no source). */
const usual = 12;
const leading = 1.2;
/** Share of a box's height that one line takes where the form leaves the size open, and where it names one. */
const highest = { open: 0.77, named: 1 / 1.2 } as const;
/** Height of a capital of our face, as a share of its size. */
const capital = 0.66;

export interface LaidLine {
  readonly text: string;
  /** From the box's lower left corner to the start of the baseline; points. */
  readonly x: number;
  readonly y: number;
}

export interface LaidText {
  readonly size: number;
  readonly lines: readonly LaidLine[];
}

type Shape = Pick<BlankField, 'multiline' | 'comb' | 'longest' | 'size' | 'align'>;

interface Setting {
  readonly shape: Shape;
  readonly place: FieldPlace;
  readonly fonts: FontMetrics;
}

function margin({ border }: FieldPlace): number {
  return Math.max(2, 2 * border);
}

function startOf(width: number, { shape, place }: Setting): number {
  const left = Math.max(0, place.width - 2 * margin(place) - width);
  return margin(place) + (shape.align === 'centre' ? left / 2 : shape.align === 'right' ? left : 0);
}

function round(size: number): number {
  return Math.floor(size * 4) / 4;
}

/** The form's own size, or as large as fits: never so tall that marks above or strokes below are cut off. */
function wantedSize({ shape, place }: Setting): number {
  const inside = place.height - 2 * place.border;
  return shape.size === 0 ? inside * highest.open : Math.min(shape.size, inside * highest.named);
}

function baseline(size: number, { place }: Setting): number {
  return (place.height - size * capital) / 2;
}

/** One line, as large as the form says, smaller where that makes it fit. */
function oneLine(text: string, setting: Setting): LaidText | undefined {
  const { shape, place, fonts } = setting;
  const room = place.width - 2 * margin(place);
  const wide = fonts.widthOf(text, 'text', 1);
  const wanted = wantedSize(setting);
  const size = round(Math.min(wanted, wide === 0 ? wanted : room / wide));
  if (size < Math.min(smallest, shape.size || smallest)) return undefined;
  return { size, lines: [{ text, x: startOf(wide * size, setting), y: baseline(size, setting) }] };
}

/** Each letter in the middle of its cell (ISO 32000-1, table 228: Comb). */
function inCells(text: string, cells: number, setting: Setting): LaidText | undefined {
  const { shape, place, fonts } = setting;
  const letters = [...text];
  const cell = place.width / cells;
  const widest = Math.max(0.01, ...letters.map((letter) => fonts.widthOf(letter, 'text', 1)));
  const size = round(Math.min(wantedSize(setting), cell / widest));
  if (letters.length > cells || size < Math.min(smallest, shape.size || smallest)) return undefined;
  const skipped =
    shape.align === 'right'
      ? cells - letters.length
      : shape.align === 'centre'
        ? Math.floor((cells - letters.length) / 2)
        : 0;
  const lines = letters.map((letter, n) => ({
    text: letter,
    x: cell * (n + skipped + 0.5) - fonts.widthOf(letter, 'text', size) / 2,
    y: baseline(size, setting),
  }));
  return { size, lines };
}

function wrapped(text: string, room: number, widthOf: (text: string) => number): readonly string[] | undefined {
  const lines: string[] = [];
  for (const paragraph of text.split('\n')) {
    let line = '';
    for (const word of paragraph.split(' ')) {
      const longer = line === '' ? word : `${line} ${word}`;
      if (widthOf(word) > room) return undefined;
      if (line !== '' && widthOf(longer) > room) {
        lines.push(line);
        line = word;
      } else line = longer;
    }
    lines.push(line);
  }
  return lines;
}

function severalLines(text: string, setting: Setting): LaidText | undefined {
  const { shape, place, fonts } = setting;
  const inset = margin(place);
  for (let size = shape.size || usual; size >= Math.min(smallest, shape.size || smallest); size -= 0.5) {
    const lines = wrapped(text, place.width - 2 * inset, (part) => fonts.widthOf(part, 'text', size));
    if (lines === undefined || lines.length * size * leading > place.height - 2 * inset) continue;
    const laid = lines.map((line, n) => ({
      text: line,
      x: startOf(fonts.widthOf(line, 'text', size), setting),
      y: place.height - inset - size * 0.85 - n * size * leading,
    }));
    return { size, lines: laid };
  }
  return undefined;
}

/** Text as a field takes it: NFC, without line ends where it has one line. */
export function fieldText(text: string, { multiline }: Pick<BlankField, 'multiline'>): string {
  const plain = text.normalize('NFC').replace(/\r\n?/g, '\n').replaceAll('\t', ' ');
  return multiline ? plain : plain.replace(/\s*\n\s*/g, ' ');
}

/**
 * Lays a value into a field's box: one line, several, or one letter to a cell (ISO 32000-1, 12.7.4.3).
 * @returns undefined where it doesn't fit with letters that can be read: nothing is ever cut off
 */
export function layText(
  text: string,
  shape: Shape,
  at: { place: FieldPlace; fonts: FontMetrics },
): LaidText | undefined {
  const setting = { shape, ...at };
  const said = fieldText(text, shape);
  if (shape.comb && shape.longest !== undefined && !shape.multiline) return inCells(said, shape.longest, setting);
  return shape.multiline ? severalLines(said, setting) : oneLine(said, setting);
}
