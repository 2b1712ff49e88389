import { type PDFArray, type PDFContext, PDFDict, type PDFFont, PDFName, type PDFRef } from 'pdf-lib';
import type { FontMetrics } from '../../typeset/drawing.ts';
import type { BlankField, FieldPlace } from '../form-model.ts';
import { type LaidText, layText } from '../lay-text.ts';
import { borderOf, defaultLook, rectOf, turnOf } from './field-facts.ts';
import { arrayAt, dictAt, numberOf } from './form-tree.ts';

/** What looks are drawn with. */
export interface Pen {
  readonly context: PDFContext;
  readonly font: PDFFont;
  readonly metrics: FontMetrics;
}

interface Frame {
  readonly width: number;
  readonly height: number;
  readonly border: number;
}

function figures(...numbers: readonly number[]): string {
  return numbers.map((number) => String(Number(number.toFixed(3)))).join(' ');
}

/** Colour operands of /MK with their operator (grey, RGB or CMYK); undefined for none. */
function colourOf(colours: PDFArray | undefined, stroke: boolean): string | undefined {
  const parts = Array.from({ length: colours?.size() ?? 0 }, (_, n) => numberOf(colours?.lookup(n)) ?? 0);
  const operator = { 1: 'g', 3: 'rg', 4: 'k' }[parts.length];
  return operator === undefined ? undefined : `${figures(...parts)} ${stroke ? operator.toUpperCase() : operator}`;
}

function frameOf(widget: PDFDict): Frame {
  const rect = rectOf(widget) ?? { width: 0, height: 0 };
  const lies = turnOf(widget) % 180 !== 0;
  const [width, height] = lies ? [rect.height, rect.width] : [rect.width, rect.height];
  return { width, height, border: borderOf(widget) };
}

/** The box's own paper and rule, with the dividers of a comb. */
function ground(widget: PDFDict, { width, height, border }: Frame, cells = 0): string {
  const mk = dictAt(widget, 'MK');
  const fill = colourOf(arrayAt(mk, 'BG'), false);
  const stroke = colourOf(arrayAt(mk, 'BC'), true);
  const paper = fill === undefined ? '' : `q ${fill} 0 0 ${figures(width, height)} re f Q\n`;
  if (stroke === undefined || border === 0) return paper;
  const dividers = Array.from({ length: Math.max(0, cells - 1) }, (_, n) => {
    const x = figures((width / cells) * (n + 1));
    return ` ${x} 0 m ${x} ${figures(height)} l S`;
  }).join('');
  const half = border / 2;
  return `${paper}q ${stroke} ${figures(border)} w ${figures(half, half, width - border, height - border)} re S${dividers} Q\n`;
}

/** /MK /R turns the content counterclockwise within the rectangle. */
function turned(widget: PDFDict): readonly number[] {
  const { width, height } = rectOf(widget) ?? { width: 0, height: 0 };
  switch (turnOf(widget)) {
    case 90:
      return [0, 1, -1, 0, width, 0];
    case 180:
      return [-1, 0, 0, -1, width, height];
    case 270:
      return [0, -1, 1, 0, 0, height];
    default:
      return [1, 0, 0, 1, 0, 0];
  }
}

function look(content: string, widget: PDFDict, { context, font }: Pen): PDFRef {
  const { width, height } = frameOf(widget);
  const entries = {
    Type: 'XObject',
    Subtype: 'Form',
    BBox: [0, 0, width, height],
    Matrix: [...turned(widget)],
    Resources: { Font: { Lf: font.ref } },
  };
  return context.register(context.flateStream(content, entries));
}

function runs({ lines }: LaidText, { font }: Pen): string {
  return lines.map(({ text, x, y }) => `1 0 0 1 ${figures(x, y)} Tm ${font.encodeText(text).toString()} Tj\n`).join('');
}

/**
 * The look of a text or choice box with its value (ISO 32000-1, 12.7.3.3), set in our face so that every name prints.
 * @returns undefined where the value doesn't fit: the caller checked that before
 */
export function textLook(
  text: string,
  { widget, field, place }: { readonly widget: PDFDict; readonly field: BlankField; readonly place: FieldPlace },
  ink: { readonly look: string; readonly pen: Pen },
): PDFRef | undefined {
  const frame = frameOf(widget);
  const laid = text === '' ? { size: 0, lines: [] } : layText(text, field, { place, fonts: ink.pen.metrics });
  if (laid === undefined) return undefined;
  const { border, width, height } = frame;
  const clip = `${figures(border, border, width - 2 * border, height - 2 * border)} re W n`;
  const words =
    laid.lines.length === 0
      ? ''
      : `q ${clip} BT ${defaultLook(ink.look).ink} /Lf ${figures(laid.size)} Tf\n${runs(laid, ink.pen)}ET Q `;
  const cells = field.comb ? (field.longest ?? 0) : 0;
  return look(`${ground(widget, frame, cells)}/Tx BMC ${words}EMC\n`, widget, ink.pen);
}

/** Of a list that stands open: its lines, the chosen one on a tint. */
export function listLook(
  chosen: number,
  { widget, field }: { readonly widget: PDFDict; readonly field: BlankField },
  { pen }: { readonly pen: Pen },
): PDFRef {
  const frame = frameOf(widget);
  const widest = pen.metrics.widthOf(field.options[chosen]?.label ?? '', 'text', 1);
  const size = Math.min(field.size || 10, widest === 0 ? Number.POSITIVE_INFINITY : (frame.width - 8) / widest);
  const step = size * 1.2;
  const room = Math.max(1, Math.floor((frame.height - 4) / step));
  const first = Math.max(0, Math.min(chosen, field.options.length - room));
  const shown = field.options.slice(first, first + room);
  const at = frame.height - 2 - step * (chosen - first + 1);
  const tint = `q 0.8 0.84 0.95 rg ${figures(frame.border + 1, at, frame.width - 2 * frame.border - 2, step)} re f Q\n`;
  const lines = shown.map(({ label }, n) => ({
    text: label,
    x: 4,
    y: frame.height - 2 - step * (n + 1) + size * 0.28,
  }));
  const clip = `${figures(frame.border, frame.border, frame.width - 2 * frame.border, frame.height - 2 * frame.border)} re W n`;
  const words = `q ${clip} BT 0 g /Lf ${figures(size)} Tf\n${runs({ size, lines }, pen)}ET Q`;
  return look(`${ground(widget, frame)}/Tx BMC ${tint}${words} EMC\n`, widget, pen);
}

/** A tick or a dot, drawn with lines, for boxes whose form has no looks for them. */
export function stateLooks(widget: PDFDict, radio: boolean, pen: Pen): { readonly on: PDFRef; readonly off: PDFRef } {
  const frame = frameOf(widget);
  const { width, height } = frame;
  const side = Math.min(width, height);
  const [left, low] = [(width - side) / 2, (height - side) / 2];
  const point = (x: number, y: number): string => figures(left + x * side, low + y * side);
  const tick = `q 0 G ${figures(Math.max(0.8, side * 0.12))} w ${point(0.2, 0.5)} m ${point(0.42, 0.24)} l ${point(0.8, 0.8)} l S Q\n`;
  const dot = `q 0 g ${point(0.75, 0.5)} m ${point(0.75, 0.64)} ${point(0.64, 0.75)} ${point(0.5, 0.75)} c ${point(0.36, 0.75)} ${point(0.25, 0.64)} ${point(0.25, 0.5)} c ${point(0.25, 0.36)} ${point(0.36, 0.25)} ${point(0.5, 0.25)} c ${point(0.64, 0.25)} ${point(0.75, 0.36)} ${point(0.75, 0.5)} c f Q\n`;
  const paper = ground(widget, frame);
  return { on: look(`${paper}${radio ? dot : tick}`, widget, pen), off: look(paper, widget, pen) };
}

/** Puts a look into a widget, keeping the looks of its other states. */
export function setLook(widget: PDFDict, looks: PDFRef | PDFDict, context: PDFContext): void {
  const known = dictAt(widget, 'AP');
  // One dictionary may serve several widgets: each gets its own before it is changed.
  const own = known === undefined ? context.obj({}) : PDFDict.fromMapWithContext(new Map(known.entries()), context);
  own.set(PDFName.of('N'), looks);
  widget.set(PDFName.of('AP'), own);
}
