/** Dots of a picture, from the upper left. */
export interface Dot {
  readonly x: number;
  readonly y: number;
}

/** Four corners: upper left, then clockwise. */
export type Quad = readonly [Dot, Dot, Dot, Dot];

/** Rows of values, from the top; one channel or three. */
export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly channels: 1 | 3;
  readonly data: Uint8Array;
}

export function distance(a: Dot, b: Dot): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

/** Twice the area of a triangle; positive where a-b-c turns clockwise on the screen. */
export function cross(a: Dot, b: Dot, c: Dot): number {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

export function area(points: readonly Dot[]): number {
  const sum = points.reduce((total, a, index) => {
    const b = points[(index + 1) % points.length] ?? a;
    return total + a.x * b.y - b.x * a.y;
  }, 0);
  return Math.abs(sum) / 2;
}

/** Andrew's monotone chain, clockwise on the screen. */
export function hullOf(points: readonly Dot[]): readonly Dot[] {
  const sorted = points.toSorted((a, b) => a.x - b.x || a.y - b.y);
  const chain = (input: readonly Dot[]): Dot[] => {
    const kept: Dot[] = [];
    for (const point of input) {
      for (;;) {
        const [a, b] = [kept.at(-2), kept.at(-1)];
        if (a === undefined || b === undefined || cross(a, b, point) > 0) break;
        kept.pop();
      }
      kept.push(point);
    }
    return kept.slice(0, -1);
  };
  return [...chain(sorted), ...chain(sorted.toReversed())];
}
