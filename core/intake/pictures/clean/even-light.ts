import sharp from 'sharp';
import type { Pixels } from './shape.ts';

/** Cells along the longer side in which the paper's brightness is looked for. */
const cells = 48;
/** What the paper becomes, and the darkness from which on ink is full black. */
const white = 250;
const black = 25;

/** Brightness of the paper on a coarse grid: of each cell the bright tenth, neighbours levelled. */
async function paperOf({ width, height, channels, data }: Pixels, wide: number, high: number): Promise<Uint8Array> {
  const fine = 8;
  const small = await sharp(data, { raw: { width, height, channels }, limitInputPixels: false })
    .toColourspace('b-w')
    .resize(wide * fine, high * fine, { fit: 'fill', kernel: 'nearest' })
    .raw()
    .toBuffer();
  const grid = new Uint8Array(wide * high);
  for (let cell = 0; cell < grid.length; cell += 1) {
    const [left, top] = [(cell % wide) * fine, Math.floor(cell / wide) * fine];
    const values: number[] = [];
    for (let dot = 0; dot < fine * fine; dot += 1) {
      values.push(small[(top + Math.floor(dot / fine)) * wide * fine + left + (dot % fine)] ?? 255);
    }
    grid[cell] = values.toSorted((a, b) => b - a)[Math.floor(values.length / 10)] ?? 255;
  }
  return grid;
}

/** The bright paper reaches into cells that are covered with ink or a picture. */
function spread(grid: Uint8Array, wide: number, high: number): Uint8Array {
  return grid.map((_, cell) => {
    const [x, y] = [cell % wide, Math.floor(cell / wide)];
    const near: number[] = [];
    for (let dy = -2; dy <= 2; dy += 1) {
      for (let dx = -2; dx <= 2; dx += 1) {
        if (x + dx >= 0 && x + dx < wide && y + dy >= 0 && y + dy < high)
          near.push(grid[(y + dy) * wide + x + dx] ?? 0);
      }
    }
    return near.toSorted((a, b) => b - a)[Math.floor(near.length / 4)] ?? 255;
  });
}

/** Evens out shadows: what is as bright as the paper around it becomes white, ink stays ink. */
export async function evenLight(from: Pixels): Promise<Pixels> {
  const { width, height, channels, data } = from;
  const longest = Math.max(width, height);
  const wide = Math.max(2, Math.round((cells * width) / longest));
  const high = Math.max(2, Math.round((cells * height) / longest));
  const grid = spread(await paperOf(from, wide, high), wide, high);
  const paper = await sharp(grid, { raw: { width: wide, height: high, channels: 1 } })
    .resize(width, height, { fit: 'fill', kernel: 'cubic' })
    .toColourspace('b-w')
    .raw()
    .toBuffer();
  const out = new Uint8Array(data.length);
  for (let dot = 0; dot < width * height; dot += 1) {
    const factor = white / Math.max(60, (paper[dot] ?? 255) - 8);
    for (let at = dot * channels; at < (dot + 1) * channels; at += 1) {
      const value = (data[at] ?? 0) * factor;
      out[at] = Math.min(255, Math.max(0, Math.round(((value - black) * 255) / (white - black))));
    }
  }
  return { width, height, channels, data: out };
}
