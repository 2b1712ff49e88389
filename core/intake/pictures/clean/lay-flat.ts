import { distance, type Pixels, type Quad } from './shape.ts';

/** Eight numbers of the projective map that takes points of a rectangle to points of the picture. */
type Projection = readonly [number, number, number, number, number, number, number, number];

/**
 * The unit square onto a four-sided shape (P. Heckbert, Fundamentals of texture mapping and image warping, 1989,
 * section 2.2.3).
 */
function squareTo([p0, p1, p2, p3]: Quad): Projection {
  const sx = p0.x - p1.x + p2.x - p3.x;
  const sy = p0.y - p1.y + p2.y - p3.y;
  const [dx1, dx2, dy1, dy2] = [p1.x - p2.x, p3.x - p2.x, p1.y - p2.y, p3.y - p2.y];
  const below = dx1 * dy2 - dx2 * dy1;
  const g = (sx * dy2 - dx2 * sy) / below;
  const h = (dx1 * sy - sx * dy1) / below;
  return [
    p1.x - p0.x + g * p1.x,
    p3.x - p0.x + h * p3.x,
    p0.x,
    p1.y - p0.y + g * p1.y,
    p3.y - p0.y + h * p3.y,
    p0.y,
    g,
    h,
  ];
}

/** The size of the flat sheet in a ratio of width to height, no side shorter than it is seen: nothing is lost. */
export function flatSize([a, b, c, d]: Quad, ratio: number): { readonly width: number; readonly height: number } {
  const width = Math.max(distance(a, b), distance(d, c));
  const height = Math.max(distance(b, c), distance(a, d));
  const wide = Math.max(width, height * ratio, 1);
  return { width: Math.round(wide), height: Math.max(1, Math.round(wide / ratio)) };
}

/** Reads between dots (bilinear); beyond the edge the last dot goes on. */
function copyDot(from: Pixels, at: { readonly x: number; readonly y: number }, to: Uint8Array, offset: number): void {
  const { width, height, channels, data } = from;
  const x = Math.min(Math.max(at.x - 0.5, 0), width - 1);
  const y = Math.min(Math.max(at.y - 0.5, 0), height - 1);
  const [left, top] = [Math.floor(x), Math.floor(y)];
  const [right, bottom] = [Math.min(left + 1, width - 1), Math.min(top + 1, height - 1)];
  const [fx, fy] = [x - left, y - top];
  for (let channel = 0; channel < channels; channel += 1) {
    const upper =
      (data[(top * width + left) * channels + channel] ?? 0) * (1 - fx) +
      (data[(top * width + right) * channels + channel] ?? 0) * fx;
    const lower =
      (data[(bottom * width + left) * channels + channel] ?? 0) * (1 - fx) +
      (data[(bottom * width + right) * channels + channel] ?? 0) * fx;
    to[offset + channel] = Math.round(upper * (1 - fy) + lower * fy);
  }
}

/** Cuts a four-sided shape out of a picture and lays it flat. */
export function layFlat(from: Pixels, quad: Quad, size: { readonly width: number; readonly height: number }): Pixels {
  const { width, height } = size;
  const [a, b, c, d, e, f, g, h] = squareTo(quad);
  const data = new Uint8Array(width * height * from.channels);
  for (let row = 0; row < height; row += 1) {
    const v = (row + 0.5) / height;
    for (let column = 0; column < width; column += 1) {
      const u = (column + 0.5) / width;
      const w = g * u + h * v + 1;
      const at = { x: (a * u + b * v + c) / w, y: (d * u + e * v + f) / w };
      copyDot(from, at, data, (row * width + column) * from.channels);
    }
  }
  return { width, height, channels: from.channels, data };
}
