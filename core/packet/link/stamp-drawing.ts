import type { SeenRect } from '../../vocabulary/lot.ts';
import type { StampFace } from '../link-order.ts';
import type { PlanStamp } from '../plan-model.ts';
import { type Matrix, multiply } from './seen-frame.ts';
import { nameText } from './syntax/serialise.ts';

/** The look's colours as PDF operands: pencil grey, stamp-pad violet, red pencil. */
const pencil = '0.361 0.392 0.408';
const violet = '0.353 0.176 0.51';
const red = '0.62 0.165 0.11';

const largest = 7.5;
const smallest = 4;
/** Height of capitals as a part of the size: near enough for any humanist sans. */
const capHeight = 0.66;
const gap = 5;

export interface StampPlace {
  readonly strip: SeenRect;
  readonly toPage: Matrix;
  /** Name of the stamp's font in the page's resources. */
  readonly font: string;
}

/**
 * The margin line, drawn inside the strip: DRAFT when it is one, the text, one segment per tab with this one filled.
 * Text runs along the strip: level in a lying one, upwards in a standing one.
 * @returns content operators in their own q/Q, or undefined when the strip is too small to be read.
 */
export function drawStamp(stamp: PlanStamp, face: StampFace, place: StampPlace): string | undefined {
  const { strip } = place;
  const lying = strip.width >= strip.height;
  const length = lying ? strip.width : strip.height;
  const thickness = lying ? strip.height : strip.width;
  const line = layOut(stamp, face, { length, thickness });
  if (line === undefined) return undefined;
  const along: Matrix = lying ? [1, 0, 0, 1, strip.x, strip.y] : [0, 1, -1, 0, strip.x + strip.width, strip.y];
  const matrix = multiply(along, place.toPage).map(decimals).join(' ');
  const base = (thickness - line.size * capHeight) / 2;
  const font = nameText(place.font);
  const words = line.words.map(
    ({ text, at, ink }) =>
      `BT ${ink} rg ${font} ${decimals(line.size)} Tf ${decimals(at)} ${decimals(base)} Td <${hexOf(face, text)}> Tj ET`,
  );
  const bar = drawBar(stamp, { from: line.barAt, base, size: line.size, segment: line.segment });
  // Nothing the page left behind may colour, clip or shift the line: every state used here is set here.
  const state = '/Artifact BMC q 0 Tr 0 Tc 0 Tw 100 Tz 0 Ts 0 g 0 G [] 0 d';
  return `${state} ${matrix} cm\n${[...words, ...bar].join('\n')}\nQ EMC\n`;
}

interface Line {
  readonly size: number;
  readonly words: readonly { readonly text: string; readonly at: number; readonly ink: string }[];
  readonly barAt: number;
  readonly segment: number;
}

/** Largest size at which everything fits into the strip. */
function layOut(
  stamp: PlanStamp,
  face: StampFace,
  room: { readonly length: number; readonly thickness: number },
): Line | undefined {
  const unit = { draft: face.widthOf('DRAFT', 1), words: face.widthOf(stamp.text, 1) };
  const largestHere = Math.min(largest, room.thickness / (capHeight + 0.4));
  for (let size = largestHere; size >= smallest; size -= 0.25) {
    const draft = stamp.draft ? unit.draft * size + gap : 0;
    const words = unit.words * size;
    const left = room.length - 2 - draft - words - gap;
    // To a hundredth of a point: the bars of all pages are then of few kinds.
    const segment = Math.floor(Math.min(size, left / Math.max(1, stamp.tabs)) * 100) / 100;
    if (segment < 1.2 && stamp.tabs > 0 && size - 0.25 >= smallest) continue;
    if (left < 0) continue;
    const text = { text: stamp.text, at: 1 + draft, ink: pencil };
    const all = stamp.draft ? [{ text: 'DRAFT', at: 1, ink: red }, text] : [text];
    return { size, words: all, barAt: 1 + draft + words + gap, segment: segment < 1.2 ? 0 : segment };
  }
  return undefined;
}

/** All segments in outline, then this one filled over its own; drawn from the bar's corner, so that pages share it. */
function drawBar(
  stamp: PlanStamp,
  bar: { readonly from: number; readonly base: number; readonly size: number; readonly segment: number },
): readonly string[] {
  if (bar.segment === 0) return [];
  const corner = `1 0 0 1 ${decimals(bar.from)} ${decimals(bar.base)} cm`;
  const outlines = `${corner} ${violet} RG 0.3 w\n${outlinesOf(stamp.tabs, bar)}S`;
  if (stamp.tab < 1 || stamp.tab > stamp.tabs) return [outlines];
  const box = [(stamp.tab - 1) * bar.segment, 0, bar.segment * 0.75, bar.size * 0.5].map(decimals).join(' ');
  return [outlines, `${violet} rg ${box} re f`];
}

const drawnBars = new Map<string, string>();

/** One bar stands on every page of a packet: its outlines are put into words once. */
function outlinesOf(tabs: number, { size, segment }: { readonly size: number; readonly segment: number }): string {
  const key = `${tabs} ${size} ${segment}`;
  const known = drawnBars.get(key);
  if (known !== undefined) return known;
  const inset = 0.15;
  const box = [inset, segment * 0.75 - 2 * inset, size * 0.5 - 2 * inset].map(decimals).join(' ');
  let path = '';
  for (let tab = 0; tab < tabs; tab += 1) path += `${decimals(tab * segment + inset)} ${box} re\n`;
  if (drawnBars.size > 200) drawnBars.clear();
  drawnBars.set(key, path);
  return path;
}

function hexOf(face: StampFace, text: string): string {
  return face.encode(text.normalize('NFC')).replace(/[^0-9a-fA-F]/g, '');
}

function decimals(value: number): string {
  const text = value.toFixed(5).replace(/\.?0+$/, '');
  return text === '-0' ? '0' : text;
}
