import type { Point } from '../kit/ink.ts';

/** The lot's corners in feet, from the south-west corner: by the calls of the deed, then closed for 3.10 acres. */
function polar(from: Point, north: 1 | -1, degrees: number, length: number): Point {
  const a = (degrees * Math.PI) / 180;
  return [from[0] + Math.sin(a) * length, from[1] + north * Math.cos(a) * length];
}

const sw: Point = [0, 0];
const nw = polar(sw, 1, 3.25, 452);
const ne = polar(nw, -1, 86 + 20 / 60, 298.5);
const se: Point = [304.4, -10.1];
export const corners = [sw, nw, ne, se] as const;

export const areaAcres =
  Math.abs(
    corners.reduce((sum, [x, y], i) => {
      const [nx, ny] = corners[(i + 1) % 4] ?? [0, 0];
      return sum + x * ny - nx * y;
    }, 0),
  ) /
  2 /
  43560;

/** A line's bearing and length as a survey prints it, from its two ends. */
export function call(a: Point, b: Point): { bearing: string; length: string } {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const seconds = Math.round((Math.atan2(Math.abs(dx), Math.abs(dy)) * 180 * 3600) / Math.PI / 10) * 10;
  const two = (v: number): string => String(v).padStart(2, '0');
  const angle = `${two(Math.floor(seconds / 3600))}°${two(Math.floor((seconds % 3600) / 60))}'${two(seconds % 60)}"`;
  return {
    bearing: `${dy >= 0 ? 'N' : 'S'} ${angle} ${dx >= 0 ? 'E' : 'W'}`,
    length: `${Math.hypot(dx, dy).toFixed(2)}'`,
  };
}

/** What stands or will stand on the lot, feet from the south-west corner. The porch looks west to the lane. */
export const onLot = {
  house: { at: [152, 190], size: [30, 62] },
  porch: { at: [144, 206], size: [8, 22] },
  well: [225, 295],
  tank: [196, 177.5],
  primary: { at: [205, 88], size: [50, 45] },
  repair: { at: [205, 30], size: [50, 45] },
  driveAt: [12.6, 221],
} as const satisfies Record<string, unknown>;
