import { colourOf, defaultAppearance, type FieldFont, fieldFont } from './field-text.ts';
import { boxOf } from './seen-frame.ts';
import type { SourceCopy } from './source-copy.ts';
import { nameText } from './syntax/serialise.ts';
import { byteString, stringBytes, textOf } from './syntax/text-string.ts';
import {
  dict,
  type FinishedRef,
  isArray,
  name,
  numberOf,
  type PdfDict,
  PdfString,
  type PdfValue,
} from './syntax/values.ts';

const multiline = 1 << 12;
const password = 1 << 13;
const comb = 1 << 24;

/** A widget with what its field hands down, asked by key. */
export interface FieldSource {
  readonly source: SourceCopy;
  /** The form's default resources. */
  readonly resources: PdfDict | undefined;
  /** The form's own /DA. */
  readonly appearance: PdfValue | undefined;
  inherited(key: string): PdfValue | undefined;
}

interface Frame {
  readonly width: number;
  readonly height: number;
  readonly border: number;
}

/**
 * Draws a text or choice field whose form left its look to the reader (/NeedAppearances), as a form XObject.
 * @returns undefined when there is nothing to draw or the font can't write the value; the field then stays as it is.
 */
export function drawFieldLook(widget: PdfDict, field: FieldSource): FinishedRef | undefined {
  const { source } = field;
  const text = shownText(field);
  const box = boxOf(source.file, widget.get('Rect'));
  const da = source.file.resolve(field.inherited('DA') ?? field.appearance);
  if (text === undefined || box === undefined || !(da instanceof PdfString)) return undefined;
  const look = defaultAppearance(stringBytes(da));
  const font = source.dictOf(field.resources?.get('Font'))?.get(look.font) ?? plainFont;
  const measured = fieldFont(source, source.dictOf(font));
  const mk = source.dictOf(widget.get('MK'));
  const turned = (numberOf(source.file.resolve(mk?.get('R'))) ?? 0) % 180 !== 0;
  const [wide, high] = [box.x1 - box.x0, box.y1 - box.y0];
  const stroke = colourOf(source, mk?.get('BC'), true);
  const border =
    numberOf(source.file.resolve(source.dictOf(widget.get('BS'))?.get('W'))) ?? (stroke === undefined ? 0 : 1);
  const frame = { width: turned ? high : wide, height: turned ? wide : high, border };
  if (measured === undefined) return undefined;
  const words = wordsOf(text, field, { frame, size: look.size, font: measured });
  if (words === undefined) return undefined;
  const content =
    ground({ frame, cells: cellsOf(field) }, colourOf(source, mk?.get('BG'), false), stroke) +
    `/Tx BMC q ${border} ${border} ${frame.width - 2 * border} ${frame.height - 2 * border} re W n ` +
    `BT ${look.ink} ${nameText(look.font)} ${words.size} Tf\n${words.operators}ET Q EMC\n`;
  const entries = dict({
    Type: name('XObject'),
    Subtype: name('Form'),
    BBox: [0, 0, frame.width, frame.height],
    Matrix: turnMatrix(numberOf(source.file.resolve(mk?.get('R'))) ?? 0, { wide, high }),
    Resources: dict({ Font: new Map([[look.font, font]]) }),
  });
  return source.out.addStream(entries, content, source.mapRef);
}

const plainFont = dict({
  Type: name('Font'),
  Subtype: name('Type1'),
  BaseFont: name('Helvetica'),
  Encoding: name('WinAnsiEncoding'),
});

/** The value as people read it: a choice shows its label, a password only its length. */
function shownText(field: FieldSource): string | undefined {
  const { file } = field.source;
  const value = file.resolve(field.inherited('V'));
  const first = isArray(value) ? file.resolve(value[0]) : value;
  const text = textOf(first);
  if (text === undefined || text === '') return undefined;
  if ((flagsOf(field) & password) !== 0) return '*'.repeat(text.length);
  const options = file.resolve(field.inherited('Opt'));
  for (const option of isArray(options) ? options : []) {
    const pair = file.resolve(option);
    if (isArray(pair) && textOf(file.resolve(pair[0])) === text) return textOf(file.resolve(pair[1])) ?? text;
  }
  return text;
}

function flagsOf(field: FieldSource): number {
  return numberOf(field.source.file.resolve(field.inherited('Ff'))) ?? 0;
}

/** How many cells a comb field has; 0 for other fields. */
function cellsOf(field: FieldSource): number {
  if ((flagsOf(field) & comb) === 0) return 0;
  return Math.max(0, Math.min(1000, numberOf(field.source.file.resolve(field.inherited('MaxLen'))) ?? 0));
}

interface Setting {
  readonly frame: Frame;
  /** 0: as large as fits. */
  readonly size: number;
  readonly font: FieldFont;
}

interface Words {
  readonly size: number;
  readonly operators: string;
}

function wordsOf(text: string, field: FieldSource, setting: Setting): Words | undefined {
  const flags = flagsOf(field);
  const { frame, font } = setting;
  const align = numberOf(field.source.file.resolve(field.inherited('Q'))) ?? 0;
  const margin = Math.max(2, 2 * frame.border);
  const room = frame.width - 2 * margin;
  const from = (codes: string, size: number): number =>
    margin + (align === 1 ? 0.5 : align === 2 ? 1 : 0) * Math.max(0, room - font.width(codes) * size);
  const cells = cellsOf(field);
  if ((flags & multiline) !== 0) {
    const size = setting.size || 12;
    const lines = wrap(text, font, room / size);
    const top = frame.height - margin - size * 0.8;
    return (
      lines && {
        size,
        operators: placed(lines.map((codes, i) => ({ codes, x: from(codes, size), y: top - i * size * 1.15 }))),
      }
    );
  }
  const codes = font.encode(text.replace(/[\r\n\t]+/g, ' '));
  if (codes === undefined) return undefined;
  const fits = Math.min((frame.height - 2 * frame.border) * 0.77, room / Math.max(0.1, font.width(codes)));
  const size = Number((setting.size || Math.max(4, fits)).toFixed(2));
  const y = (frame.height - size * 0.72) / 2;
  if (cells === 0) return { size, operators: placed([{ codes, x: from(codes, size), y }]) };
  const cell = frame.width / cells;
  const letters = Array.from(codes, (one, i) => ({
    codes: one,
    x: cell * (i + 0.5) - (font.width(one) * size) / 2,
    y,
  }));
  return { size, operators: placed(letters) };
}

/** Breaks text at its own line ends and at spaces. */
function wrap(text: string, font: FieldFont, room: number): readonly string[] | undefined {
  const lines: string[] = [];
  for (const paragraph of text.split(/\r\n|\r|\n/)) {
    const codes = font.encode(paragraph.replace(/\t/g, ' '));
    if (codes === undefined) return undefined;
    let line = '';
    for (const word of codes.split(' ')) {
      const longer = line === '' ? word : `${line} ${word}`;
      if (line !== '' && font.width(longer) > room) {
        lines.push(line);
        line = word;
      } else line = longer;
    }
    lines.push(line);
  }
  return lines;
}

function placed(lines: readonly { readonly codes: string; readonly x: number; readonly y: number }[]): string {
  return lines
    .map(({ codes, x, y }) => `1 0 0 1 ${x.toFixed(3)} ${y.toFixed(3)} Tm ${byteString(codes).raw} Tj\n`)
    .join('');
}

function ground(
  { frame, cells }: { readonly frame: Frame; readonly cells: number },
  fill: string | undefined,
  stroke: string | undefined,
): string {
  const half = frame.border / 2;
  const paper = fill === undefined ? '' : `q ${fill} 0 0 ${frame.width} ${frame.height} re f Q\n`;
  if (stroke === undefined || frame.border === 0) return paper;
  const cell = cells === 0 ? 0 : frame.width / cells;
  const dividers = Array.from({ length: Math.max(0, cells - 1) }, (_, i) => {
    const x = (cell * (i + 1)).toFixed(3);
    return ` ${x} 0 m ${x} ${frame.height} l S`;
  }).join('');
  return `${paper}q ${stroke} ${frame.border} w ${half} ${half} ${frame.width - frame.border} ${frame.height - frame.border} re S${dividers} Q\n`;
}

/** /MK /R turns the content counterclockwise within the rectangle. */
function turnMatrix(turn: number, { wide, high }: { readonly wide: number; readonly high: number }): readonly number[] {
  switch (((turn % 360) + 360) % 360) {
    case 90:
      return [0, 1, -1, 0, wide, 0];
    case 180:
      return [-1, 0, 0, -1, wide, high];
    case 270:
      return [0, -1, 1, 0, 0, high];
    default:
      return [1, 0, 0, 1, 0, 0];
  }
}
