import sharp from 'sharp';
import type { Turn } from '../reading/page-text.ts';
import type { GreyPicture } from './page-picture.ts';

/** A small picture of the ink: 1 where it is clearly darker than the sheet around it. */
interface Ink {
  readonly width: number;
  readonly height: number;
  readonly points: readonly (readonly [x: number, y: number])[];
}

/** Shrinks by whole steps to about 600 across, then keeps what is darker than its sheet. */
function inkOf({ width, height, pixels }: GreyPicture): Ink {
  const step = Math.max(1, Math.floor(Math.max(width, height) / 900));
  const wide = Math.floor(width / step);
  const high = Math.floor(height / step);
  const small = new Uint8Array(wide * high);
  const counts = new Uint32Array(256);
  for (let y = 0; y < high; y += 1) {
    for (let x = 0; x < wide; x += 1) {
      let sum = 0;
      for (let dy = 0; dy < step; dy += 1) {
        const from = (y * step + dy) * width + x * step;
        for (let dx = 0; dx < step; dx += 1) sum += pixels[from + dx] ?? 255;
      }
      const grey = Math.floor(sum / (step * step));
      small[y * wide + x] = grey;
      counts[grey] = (counts[grey] ?? 0) + 1;
    }
  }
  const sheet = counts.reduce((best, count, grey) => (count > (counts[best] ?? 0) ? grey : best), 0);
  const points: (readonly [number, number])[] = [];
  for (let at = 0; at < small.length; at += 1) {
    if ((small[at] ?? 255) < sheet - 55) points.push([at % wide, Math.floor(at / wide)]);
  }
  return { width: wide, height: high, points };
}

/** How sharply the ink falls into rows when lines climb by `slope` pixels per pixel: level text makes tall peaks. */
function rowSharpness({ width, height, points }: Ink, slope: number): number {
  const pad = Math.ceil(Math.abs(slope) * width) + 1;
  const rows = new Float64Array(height + 2 * pad);
  for (const [x, y] of points) {
    const row = Math.round(y - slope * x) + pad;
    rows[row] = (rows[row] ?? 0) + 1;
  }
  let sum = 0;
  for (let row = 1; row < rows.length; row += 1) sum += ((rows[row] ?? 0) - (rows[row - 1] ?? 0)) ** 2;
  return sum;
}

function bestOf(ink: Ink, angles: readonly number[]): number {
  const scored = angles.map((angle) => ({ angle, score: rowSharpness(ink, Math.tan((angle * Math.PI) / 180)) }));
  return scored.reduce((best, next) => (next.score > best.score ? next : best)).angle;
}

const range = (from: number, to: number, step: number) =>
  Array.from({ length: Math.round((to - from) / step) + 1 }, (_, at) => from + at * step);

/** What the ink of a page says before a letter is read. */
export interface InkFacts {
  /** Share of the page that is ink. */
  readonly share: number;
  /** Clockwise degrees by which the sheet lies turned in its picture, -6 to 6. */
  readonly skew: number;
  /** Rows of text run up and down, not across. */
  readonly sideways: boolean;
}

/** Measures the ink; about 20 ms for a page. Ink thicker than a letter's (photos, a dark edge) tells little and hurts little. */
export function inkFacts(picture: GreyPicture): InkFacts {
  const ink = inkOf(picture);
  const share = ink.points.length / Math.max(1, ink.width * ink.height);
  if (ink.points.length < 30) return { share, skew: 0, sideways: false };
  const coarse = bestOf(ink, range(-6, 6, 0.5));
  const skew = bestOf(ink, range(coarse - 0.4, coarse + 0.4, 0.1));
  const turned: Ink = { width: ink.height, height: ink.width, points: ink.points.map(([x, y]) => [y, x]) };
  const across = rowSharpness(ink, Math.tan((skew * Math.PI) / 180));
  const along = rowSharpness(turned, Math.tan((bestOf(turned, range(-4, 4, 0.5)) * Math.PI) / 180));
  return { share, skew, sideways: along > across * 1.15 };
}

/** Turns a picture by quarters, then levels it by `lean` clockwise degrees about its middle; white fills the corners. */
export async function turned(picture: GreyPicture, turn: Turn, lean: number): Promise<GreyPicture> {
  if (turn === 0 && lean === 0) return picture;
  const { width, height, pixels } = picture;
  let image = sharp(pixels, { raw: { width, height, channels: 1 } });
  if (turn !== 0) {
    const quarter = await image.rotate(turn).toColourspace('b-w').raw().toBuffer({ resolveWithObject: true });
    if (lean === 0) return { width: quarter.info.width, height: quarter.info.height, pixels: quarter.data };
    image = sharp(quarter.data, { raw: { width: quarter.info.width, height: quarter.info.height, channels: 1 } });
  }
  const level = await image
    .rotate(lean, { background: '#ffffff' })
    .toColourspace('b-w')
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { width: level.info.width, height: level.info.height, pixels: level.data };
}
