import type { GreyPicture } from './page-picture.ts';

/** A small spot of ink: a full stop, the dot of an i, a speck, or one dot of a leader. */
interface Dot {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** How much darker than the sheet ink is, and how many dots in a row make a leader. */
const darker = 45;
const leastDots = 6;

/** The shade most of the sheet has. */
export function sheetShade({ pixels }: GreyPicture): number {
  const counts = new Uint32Array(256);
  for (let at = 0; at < pixels.length; at += 7) {
    const grey = pixels[at] ?? 255;
    counts[grey] = (counts[grey] ?? 0) + 1;
  }
  return counts.reduce((best, count, grey) => (count > (counts[best] ?? 0) ? grey : best), 0);
}

/** Follows one blob of ink; undefined where it is larger than a dot. */
function follow(ink: Uint8Array, width: number, start: number, largest: number): Dot | undefined {
  const stack = [start];
  ink[start] = 0;
  let [left, right, top, bottom] = [start % width, start % width, Math.floor(start / width), Math.floor(start / width)];
  for (let at = stack.pop(); at !== undefined; at = stack.pop()) {
    const x = at % width;
    const y = (at - x) / width;
    left = Math.min(left, x);
    right = Math.max(right, x);
    top = Math.min(top, y);
    bottom = Math.max(bottom, y);
    for (const next of [
      at - 1,
      at + 1,
      at - width,
      at + width,
      at - width - 1,
      at - width + 1,
      at + width - 1,
      at + width + 1,
    ]) {
      if (ink[next] === 1) {
        ink[next] = 0;
        stack.push(next);
      }
    }
  }
  const small = right - left < largest && bottom - top < largest;
  return small ? { left, top, right, bottom } : undefined;
}

function dotsOf(picture: GreyPicture, largest: number): readonly Dot[] {
  const { width, pixels } = picture;
  const limit = sheetShade(picture) - darker;
  const ink = new Uint8Array(pixels.length);
  for (let at = 0; at < pixels.length; at += 1) ink[at] = (pixels[at] ?? 255) < limit ? 1 : 0;
  const dots: Dot[] = [];
  for (let at = 0; at < ink.length; at += 1) {
    if (ink[at] !== 1) continue;
    const dot = follow(ink, width, at, largest);
    if (dot !== undefined) dots.push(dot);
  }
  return dots;
}

/** Dots that follow one another at one height and one step. */
function leadersOf(dots: readonly Dot[], step: number): readonly (readonly Dot[])[] {
  const rows: Dot[][] = [];
  for (const dot of dots.toSorted((a, b) => a.left - b.left)) {
    const row = rows.findLast((open) => {
      const last = open.at(-1);
      if (last === undefined) return false;
      const gap = dot.left - last.right;
      return gap > 0 && gap <= step && Math.abs(dot.bottom - last.bottom) <= 2;
    });
    if (row === undefined) rows.push([dot]);
    else row.push(dot);
  }
  return rows.filter((row) => row.length >= leastDots);
}

/**
 * Wipes the dots that lead from a label to its value: readers of letters take them for words and lose the label.
 * @param dpi dots per inch; a leader's dot is smaller than 1/30 inch, and stands less than 1/8 inch from the next
 */
export function withoutLeaders(picture: GreyPicture, dpi: number): GreyPicture {
  const leaders = leadersOf(dotsOf(picture, Math.max(4, dpi / 30)), dpi / 8);
  if (leaders.length === 0) return picture;
  const shade = sheetShade(picture);
  const pixels = Uint8Array.from(picture.pixels);
  for (const dot of leaders.flat()) {
    for (let y = Math.max(0, dot.top - 2); y <= Math.min(picture.height - 1, dot.bottom + 2); y += 1) {
      pixels.fill(
        shade,
        y * picture.width + Math.max(0, dot.left - 2),
        y * picture.width + Math.min(picture.width, dot.right + 3),
      );
    }
  }
  return { ...picture, pixels };
}
