import { area, cross, type Dot, distance, hullOf, type Quad } from './shape.ts';

interface Grey {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
}

/** A sheet fills at least this much of a photo taken of it; more than the second, and there is nothing to cut off. */
const share = { least: 0.15, most: 0.97 };
/** How well the bright part has to fill the four-sided shape found round it. */
const leastFilled = 0.93;
/** Degrees that the corners of a sheet seen askew may have. */
const angles = { least: 55, most: 125 };

/** The grey value that parts dark from bright best (N. Otsu, A threshold selection method, 1979). */
export function threshold(data: Uint8Array): number {
  const counts = new Float64Array(256);
  for (const value of data) counts[value] = (counts[value] ?? 0) + 1;
  const total = counts.reduce((sum, count, value) => sum + count * value, 0);
  let [best, at, below, sumBelow] = [-1, 128, 0, 0];
  for (let value = 0; value < 255; value += 1) {
    below += counts[value] ?? 0;
    sumBelow += value * (counts[value] ?? 0);
    const above = data.length - below;
    if (below === 0 || above === 0) continue;
    const apart = below * above * (sumBelow / below - (total - sumBelow) / above) ** 2;
    if (apart > best) [best, at] = [apart, value];
  }
  return at;
}

/** Numbers the bright patches and returns the dots of the largest one. */
function largestPatch({ width, height, data }: Grey, from: number): readonly number[] {
  const seen = new Uint8Array(data.length);
  let largest: number[] = [];
  for (let start = 0; start < data.length; start += 1) {
    if (seen[start] === 1 || (data[start] ?? 0) <= from) continue;
    const patch = [start];
    seen[start] = 1;
    for (let at = 0; at < patch.length; at += 1) {
      const here = patch[at] ?? 0;
      const x = here % width;
      const near = [x > 0 ? here - 1 : -1, x < width - 1 ? here + 1 : -1, here - width, here + width];
      for (const next of near) {
        if (next < 0 || next >= width * height || seen[next] === 1 || (data[next] ?? 0) <= from) continue;
        seen[next] = 1;
        patch.push(next);
      }
    }
    if (patch.length > largest.length) largest = patch;
  }
  return largest;
}

/** Leftmost and rightmost dot of each row: enough for a hull, and all of the outline that matters. */
function outline(patch: readonly number[], width: number): readonly Dot[] {
  const rows = new Map<number, { left: number; right: number }>();
  for (const at of patch) {
    const [x, y] = [at % width, Math.floor(at / width)];
    const row = rows.get(y);
    if (row === undefined) rows.set(y, { left: x, right: x });
    else {
      row.left = Math.min(row.left, x);
      row.right = Math.max(row.right, x);
    }
  }
  return [...rows].flatMap(([y, { left, right }]) => [
    { x: left, y },
    { x: right + 1, y },
    { x: left, y: y + 1 },
    { x: right + 1, y: y + 1 },
  ]);
}

/** Where two lines through a-b and c-d meet. */
function meet([a, b]: readonly [Dot, Dot], [c, d]: readonly [Dot, Dot]): Dot | undefined {
  const along = { x: b.x - a.x, y: b.y - a.y };
  const other = { x: d.x - c.x, y: d.y - c.y };
  const below = along.x * other.y - along.y * other.x;
  if (Math.abs(below) < 1e-9) return undefined;
  const t = ((c.x - a.x) * other.y - (c.y - a.y) * other.x) / below;
  return { x: a.x + t * along.x, y: a.y + t * along.y };
}

/** Takes away the side of a hull whose neighbours, drawn on until they meet, add the least; until four are left. */
function fourSides(hull: readonly Dot[]): readonly Dot[] | undefined {
  let points = [...hull];
  while (points.length > 4) {
    const at = (index: number): Dot => points[(index + points.length) % points.length] ?? { x: 0, y: 0 };
    let best: { added: number; index: number; corner: Dot } | undefined;
    for (let index = 0; index < points.length; index += 1) {
      const [before, a, b, after] = [at(index - 1), at(index), at(index + 1), at(index + 2)];
      const corner = meet([before, a], [after, b]);
      if (corner === undefined || cross(a, corner, b) < 0) continue;
      const added = area([a, corner, b]);
      if (best === undefined || added < best.added) best = { added, index, corner };
    }
    if (best === undefined) return undefined;
    const { index, corner } = best;
    const gone = (index + 1) % points.length;
    points = points.map((point, place) => (place === index ? corner : point)).filter((_, place) => place !== gone);
  }
  return points.length === 4 ? points : undefined;
}

/** Upper left first, clockwise; the upper left is the corner nearest to the picture's own. */
function inOrder(points: readonly Dot[]): Quad | undefined {
  const first = points.reduce((best, point, index) => {
    const chosen = points[best];
    return chosen !== undefined && point.x + point.y < chosen.x + chosen.y ? index : best;
  }, 0);
  const [a, b, c, d] = [...points.slice(first), ...points.slice(0, first)];
  if (a === undefined || b === undefined || c === undefined || d === undefined) return undefined;
  return cross(a, b, c) > 0 ? [a, b, c, d] : [a, d, c, b];
}

function isSheetLike(quad: Quad): boolean {
  return quad.every((corner, index) => {
    const before = quad[(index + 3) % 4] ?? corner;
    const after = quad[(index + 1) % 4] ?? corner;
    const opposite = distance(before, after);
    const [a, b] = [distance(corner, before), distance(corner, after)];
    const angle = (Math.acos((a * a + b * b - opposite * opposite) / (2 * a * b)) * 180) / Math.PI;
    return angle > angles.least && angle < angles.most;
  });
}

/**
 * Finds the four corners of a bright sheet on something darker, in dots of the picture given (some 600 across do).
 * @returns undefined where no such sheet stands out, or it fills the picture already
 */
export function findSheet(grey: Grey): Quad | undefined {
  const all = grey.width * grey.height;
  const patch = largestPatch(grey, threshold(grey.data));
  if (patch.length < all * share.least) return undefined;
  const sides = fourSides(hullOf(outline(patch, grey.width)));
  const quad = sides === undefined ? undefined : inOrder(sides);
  if (quad === undefined || !isSheetLike(quad)) return undefined;
  const inside = area(quad);
  if (inside > all * share.most || patch.length < inside * leastFilled * 0.9) return undefined;
  return area(hullOf(outline(patch, grey.width))) >= inside * leastFilled ? quad : undefined;
}
