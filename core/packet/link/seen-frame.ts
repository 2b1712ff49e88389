import type { SeenRect } from '../../vocabulary/lot.ts';
import type { PdfFile } from './syntax/pdf-file.ts';
import { isArray, numberOf, type PdfValue } from './syntax/values.ts';

/** PDF matrix [a b c d e f]. */
export type Matrix = readonly [number, number, number, number, number, number];

export interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

export type Turn = 0 | 90 | 180 | 270;

/** What decides how a page is seen. */
export interface PageGeometry {
  /** Visible box in the page's own units: CropBox within MediaBox. */
  readonly box: Box;
  readonly rotate: Turn;
  readonly userUnit: number;
}

const letter: Box = { x0: 0, y0: 0, x1: 612, y1: 792 };

/** Reads a rectangle with its corners in any order. */
export function boxOf(file: PdfFile, value: PdfValue | undefined): Box | undefined {
  const found = file.resolve(value);
  if (!isArray(found) || found.length < 4) return undefined;
  const [a, b, c, d] = found.slice(0, 4).map((side) => numberOf(file.resolve(side)));
  if (a === undefined || b === undefined || c === undefined || d === undefined) return undefined;
  const box = { x0: Math.min(a, c), y0: Math.min(b, d), x1: Math.max(a, c), y1: Math.max(b, d) };
  return box.x1 > box.x0 && box.y1 > box.y0 ? box : undefined;
}

/** The visible box: where crop and media overlap; without overlap the media (as readers do). */
export function visibleBox(media: Box | undefined, crop: Box | undefined): Box {
  const whole = media ?? letter;
  if (crop === undefined) return whole;
  const box = {
    x0: Math.max(whole.x0, crop.x0),
    y0: Math.max(whole.y0, crop.y0),
    x1: Math.min(whole.x1, crop.x1),
    y1: Math.min(whole.y1, crop.y1),
  };
  return box.x1 > box.x0 && box.y1 > box.y0 ? box : whole;
}

/** Any multiple of 90, negative too, as 0, 90, 180 or 270. */
export function turnOf(degrees: number): Turn {
  const quarter = ((Math.round(degrees / 90) % 4) + 4) % 4;
  return quarter === 1 ? 90 : quarter === 2 ? 180 : quarter === 3 ? 270 : 0;
}

/** Width and height as seen, in points. */
export function seenSize(page: PageGeometry): { readonly width: number; readonly height: number } {
  const wide = (page.box.x1 - page.box.x0) * page.userUnit;
  const high = (page.box.y1 - page.box.y0) * page.userUnit;
  return page.rotate % 180 === 0 ? { width: wide, height: high } : { width: high, height: wide };
}

/**
 * From the page as seen (points, origin lower left, turned, cropped, UserUnit applied) to the page's own units.
 * /Rotate turns clockwise (ISO 32000-1, table 30).
 */
export function seenToPage({ box, rotate, userUnit }: PageGeometry): Matrix {
  const s = 1 / userUnit;
  switch (rotate) {
    case 0:
      return [s, 0, 0, s, box.x0, box.y0];
    case 90:
      return [0, s, -s, 0, box.x1, box.y0];
    case 180:
      return [-s, 0, 0, -s, box.x1, box.y1];
    case 270:
      return [0, -s, s, 0, box.x0, box.y1];
  }
}

/** A rectangle of a page of this seen size, after the page is turned further clockwise. */
export function turnRect(
  rect: SeenRect,
  page: { readonly width: number; readonly height: number },
  by: Turn,
): SeenRect {
  const { x, y, width, height } = rect;
  switch (by) {
    case 0:
      return rect;
    case 90:
      return { x: y, y: page.width - x - width, width: height, height: width };
    case 180:
      return { x: page.width - x - width, y: page.height - y - height, width, height };
    case 270:
      return { x: page.height - y - height, y: x, width: height, height: width };
  }
}

/** First `inner`, then `outer`. */
export function multiply(inner: Matrix, outer: Matrix): Matrix {
  const [a, b, c, d, e, f] = inner;
  const [g, h, i, j, k, l] = outer;
  return [a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + l];
}
