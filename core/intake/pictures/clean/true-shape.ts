import { distance, type Quad } from './shape.ts';

type Vector = readonly [number, number, number];

/** Focal lengths that a camera may have, in parts of the picture's diagonal: a wide angle to a long tele. */
const focal = { least: 0.3, most: 8 };

function crossProduct([a, b, c]: Vector, [x, y, z]: Vector): Vector {
  return [b * z - c * y, c * x - a * z, a * y - b * x];
}

function dot([a, b, c]: Vector, [x, y, z]: Vector): number {
  return a * x + b * y + c * z;
}

/** How wide the sides look against each other, longest ones taken. */
function plainRatio([a, b, c, d]: Quad): number {
  return Math.max(distance(a, b), distance(d, c)) / Math.max(distance(b, c), distance(a, d));
}

/**
 * Width by height of the rectangle that a camera saw as this shape: seen askew, a sheet looks shorter than it is
 * (Z. Zhang, L.-W. He, Whiteboard scanning and image enhancement, 2003, section 3.2; dots are square, the lens looks
 * at the picture's middle).
 */
export function trueRatio(quad: Quad, picture: { readonly width: number; readonly height: number }): number {
  const [m1, m2, m4, m3] = quad.map(({ x, y }): Vector => [x - picture.width / 2, y - picture.height / 2, 1]);
  if (m1 === undefined || m2 === undefined || m3 === undefined || m4 === undefined) return plainRatio(quad);
  const k2 = dot(crossProduct(m1, m4), m3) / dot(crossProduct(m2, m4), m3);
  const k3 = dot(crossProduct(m1, m4), m2) / dot(crossProduct(m3, m4), m2);
  const n2: Vector = [k2 * m2[0] - m1[0], k2 * m2[1] - m1[1], k2 - 1];
  const n3: Vector = [k3 * m3[0] - m1[0], k3 * m3[1] - m1[1], k3 - 1];
  const squared = -(n2[0] * n3[0] + n2[1] * n3[1]) / (n2[2] * n3[2]);
  const diagonal = Math.hypot(picture.width, picture.height);
  const plausible = squared > (focal.least * diagonal) ** 2 && squared < (focal.most * diagonal) ** 2;
  if (!plausible) return plainRatio(quad);
  const side = ([x, y, z]: Vector): number => (x * x + y * y) / squared + z * z;
  return Math.sqrt(side(n2) / side(n3));
}
