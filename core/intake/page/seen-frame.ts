import type { RegularFile } from '../regular/regular-file.ts';
import { isList, type Value } from '../regular/values.ts';
import type { PageEntry } from './page-tree.ts';

/** How a page's own coordinates become the page as seen. */
export interface SeenFrame {
  /** Size as seen: turned, cropped, UserUnit applied; points. */
  readonly width: number;
  readonly height: number;
  readonly unit: number;
  readonly turn: 0 | 90 | 180 | 270;
  /** `a b c d e f` of the matrix that takes seen points to the page's own units. */
  readonly toPage: readonly [number, number, number, number, number, number];
}

interface Box {
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
  readonly top: number;
}

/** Where a page has no usable MediaBox the readers take letter size. */
const letter: Box = { left: 0, bottom: 0, right: 612, top: 792 };

function boxOf(file: RegularFile, value: Value | undefined): Box | undefined {
  const list = file.resolve(value);
  if (!isList(list) || list.length < 4) return undefined;
  const [a, b, c, d] = list.map((item) => file.resolve(item));
  if (typeof a !== 'number' || typeof b !== 'number' || typeof c !== 'number' || typeof d !== 'number')
    return undefined;
  const box = { left: Math.min(a, c), bottom: Math.min(b, d), right: Math.max(a, c), top: Math.max(b, d) };
  return box.right - box.left > 0 && box.top - box.bottom > 0 ? box : undefined;
}

function intersect(a: Box, b: Box): Box {
  const box = {
    left: Math.max(a.left, b.left),
    bottom: Math.max(a.bottom, b.bottom),
    right: Math.min(a.right, b.right),
    top: Math.min(a.top, b.top),
  };
  return box.right > box.left && box.top > box.bottom ? box : a;
}

function turnOf(value: Value): SeenFrame['turn'] {
  if (typeof value !== 'number') return 0;
  const turn = ((value % 360) + 360) % 360;
  return turn === 90 || turn === 180 || turn === 270 ? turn : 0;
}

function matrixOf(box: Box, turn: SeenFrame['turn'], unit: number): SeenFrame['toPage'] {
  const s = 1 / unit;
  switch (turn) {
    case 0:
      return [s, 0, 0, s, box.left, box.bottom];
    case 90:
      return [0, s, -s, 0, box.right, box.bottom];
    case 180:
      return [-s, 0, 0, -s, box.right, box.top];
    case 270:
      return [0, -s, s, 0, box.left, box.top];
  }
}

/** The frame of one page: CropBox within MediaBox, Rotate, UserUnit. */
export function seenFrame(file: RegularFile, page: PageEntry): SeenFrame {
  const media = boxOf(file, page.inherited.get('MediaBox')) ?? letter;
  const crop = boxOf(file, page.inherited.get('CropBox'));
  const box = crop === undefined ? media : intersect(media, crop);
  const given = file.resolve(page.dict.get('UserUnit'));
  const unit = typeof given === 'number' && given > 0 ? given : 1;
  const turn = turnOf(file.resolve(page.inherited.get('Rotate')));
  const width = (box.right - box.left) * unit;
  const height = (box.top - box.bottom) * unit;
  const lies = turn === 90 || turn === 270;
  return {
    width: lies ? height : width,
    height: lies ? width : height,
    unit,
    turn,
    toPage: matrixOf(box, turn, unit),
  };
}
