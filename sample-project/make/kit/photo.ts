import sharp from 'sharp';
import { Chance } from './chance.ts';
import { clamp, type Pixels } from './picture.ts';

type Spot = readonly [number, number];

export interface PhotoLook {
  readonly seed: string;
  /** Size of the picture as seen. */
  readonly size: readonly [number, number];
  /** The sheet's corners in the picture as seen: upper left, upper right, lower right, lower left (shares of the size). */
  readonly corners: readonly [Spot, Spot, Spot, Spot];
  /** When the shutter was pressed, as EXIF writes it: "2026:06:16 14:22:09". */
  readonly taken: string;
  /** EXIF orientation: 1 upright, 6 held sideways. */
  readonly orientation: 1 | 6;
  readonly quality: number;
}

/** Eight numbers that map the picture's points onto the unit square of the sheet (a plane homography). */
function planeMap(corners: PhotoLook['corners']): number[] {
  const [a, b, c, d] = corners;
  const [dx1, dx2, sx] = [b[0] - c[0], d[0] - c[0], a[0] - b[0] + c[0] - d[0]];
  const [dy1, dy2, sy] = [b[1] - c[1], d[1] - c[1], a[1] - b[1] + c[1] - d[1]];
  const den = dx1 * dy2 - dx2 * dy1;
  const g = (sx * dy2 - dx2 * sy) / den;
  const h = (dx1 * sy - sx * dy1) / den;
  const m = [
    b[0] - a[0] + g * b[0],
    d[0] - a[0] + h * d[0],
    a[0],
    b[1] - a[1] + g * b[1],
    d[1] - a[1] + h * d[1],
    a[1],
  ];
  return invert([...m, g, h, 1]);
}

function invert(m: readonly number[]): number[] {
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0, i = 0] = m;
  return [
    e * i - f * h,
    c * h - b * i,
    b * f - c * e,
    f * g - d * i,
    a * i - c * g,
    c * d - a * f,
    d * h - e * g,
    b * g - a * h,
    a * e - b * d,
  ];
}

/** A kitchen table: boards with grain. */
function table(x: number, y: number, grain: Float64Array): Spot3 {
  const board = Math.floor(y / 0.21);
  const wave = Math.sin(x * 9 + board * 2.1 + Math.sin(y * 60 + board) * 0.7) * 6;
  const fine = (grain[(Math.floor(y * 900) * 31 + Math.floor(x * 40)) & 4095] ?? 0) * 9;
  const gap = Math.abs(y / 0.21 - board) < 0.02 ? -42 : 0;
  const tone = ((board * 37) % 5) * 5;
  return [134 + wave + fine + gap + tone, 98 + wave * 0.8 + fine + gap + tone * 0.8, 66 + wave * 0.6 + fine + gap];
}

type Spot3 = readonly [number, number, number];

function sheetAt(sheet: Pixels, u: number, v: number): Spot3 {
  const x = Math.min(sheet.width - 1.001, u * sheet.width);
  const y = Math.min(sheet.height - 1.001, v * sheet.height);
  const [x0, y0] = [Math.floor(x), Math.floor(y)];
  const [fx, fy] = [x - x0, y - y0];
  const at = (px: number, py: number, c: number): number =>
    sheet.data[(Math.min(py, sheet.height - 1) * sheet.width + Math.min(px, sheet.width - 1)) * sheet.channels + c] ??
    255;
  const mix = (c: number): number =>
    (at(x0, y0, c) * (1 - fx) + at(x0 + 1, y0, c) * fx) * (1 - fy) +
    (at(x0, y0 + 1, c) * (1 - fx) + at(x0 + 1, y0 + 1, c) * fx) * fy;
  return [mix(0), mix(1), mix(2)];
}

/** Photographs a sheet lying on a table: perspective, uneven lamp light, a soft fold, noise. */
export async function photograph(sheet: Pixels, look: PhotoLook): Promise<Buffer> {
  const [width, height] = look.size;
  const chance = new Chance(look.seed);
  const grain = Float64Array.from({ length: 4096 }, () => chance.bell());
  const map = planeMap(look.corners);
  const data = new Uint8Array(width * height * 3);
  for (let py = 0; py < height; py += 1) {
    for (let px = 0; px < width; px += 1) {
      const [x, y] = [px / width, py / height];
      const shade = light(x, y);
      const colour = colourAt(map, [x, y], { sheet, grain, ratio: height / width });
      for (let c = 0; c < 3; c += 1) {
        const warm = c === 2 ? 0.9 : c === 1 ? 0.97 : 1;
        data[(py * width + px) * 3 + c] = clamp((colour[c] ?? 0) * shade * warm + chance.bell() * 3.2);
      }
    }
  }
  return develop({ data, width, height, channels: 3 }, look);
}

function light(x: number, y: number): number {
  const lamp = Math.exp(-((x - 0.32) ** 2 + (y - 0.24) ** 2) / 0.55);
  const arm = 0.16 / (1 + Math.exp(-(x + y * 0.8 - 1.35) * 26));
  return 0.58 + 0.46 * lamp - arm;
}

function colourAt(
  map: readonly number[],
  [x, y]: Spot,
  scene: { sheet: Pixels; grain: Float64Array; ratio: number },
): Spot3 {
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0, i = 1] = map;
  const w = g * x + h * y + i;
  const u = (a * x + b * y + c) / w;
  const v = (d * x + e * y + f) / w;
  if (u >= 0 && v >= 0 && u < 1 && v < 1) {
    const fold = 1 - 0.07 * Math.exp(-((v - 0.5) ** 2) / 0.00006) + 0.03 * Math.tanh((v - 0.5) * 30);
    const [r, gr, bl] = sheetAt(scene.sheet, u, v);
    return [r * fold, gr * fold, bl * fold];
  }
  const [r, gr, bl] = table(x, y * scene.ratio, scene.grain);
  const away = Math.max(-u, u - 1, -v, v - 1);
  const shadow = 1 - 0.5 * Math.exp(-away / 0.018);
  return [r * shadow, gr * shadow, bl * shadow];
}

/** Softens, turns as the camera was held, and writes the EXIF block. */
export async function develop(
  pixels: Pixels,
  look: Pick<PhotoLook, 'taken' | 'orientation' | 'quality'>,
): Promise<Buffer> {
  const { data, width, height, channels } = pixels;
  return sharp(data, { raw: { width, height, channels } })
    .removeAlpha()
    .blur(0.7)
    .rotate(look.orientation === 6 ? 270 : 0)
    .jpeg({ quality: look.quality, chromaSubsampling: '4:2:0' })
    .withMetadata({ orientation: look.orientation, density: 72 })
    .withExifMerge({ IFD0: { DateTime: look.taken }, IFD2: { DateTimeOriginal: look.taken } })
    .toBuffer();
}
