import type { Point } from './ink.ts';
import { black } from './ink.ts';
import type { Leaf, LineLook, TextLook } from './leaf.ts';

/** A drawing in feet (y up) laid on a leaf at a scale: the draughtsman's window. */
export class View {
  readonly leaf: Leaf;
  readonly #origin: Point;
  readonly #scale: number;

  /** @param origin where the drawing's 0,0 lies on the leaf, in points; @param scale points per foot */
  constructor(leaf: Leaf, origin: Point, scale: number) {
    this.leaf = leaf;
    this.#origin = origin;
    this.#scale = scale;
  }

  get scale(): number {
    return this.#scale;
  }

  at([x, y]: Point): Point {
    return [this.#origin[0] + x * this.#scale, this.#origin[1] - y * this.#scale];
  }

  line(a: Point, b: Point, look: LineLook = {}): void {
    this.leaf.line(this.at(a), this.at(b), look);
  }

  path(points: readonly Point[], look: LineLook & { readonly close?: boolean } = {}): void {
    this.leaf.path(
      points.map((p) => this.at(p)),
      look,
    );
  }

  /** A rectangle from its lower left corner. */
  box([x, y]: Point, [w, h]: Point, look: LineLook = {}): void {
    this.path(
      [
        [x, y],
        [x + w, y],
        [x + w, y + h],
        [x, y + h],
      ],
      { ...look, close: true },
    );
  }

  arc(centre: Point, radius: number, turn: readonly [number, number], look: LineLook = {}): void {
    this.leaf.arc(this.at(centre), radius * this.#scale, turn, look);
  }

  circle(centre: Point, radius: number, look: LineLook = {}): void {
    this.arc(centre, radius, [0, 360], look);
  }

  text(at: Point, words: string, look: TextLook = {}): void {
    this.leaf.text(this.at(at), words, { face: 'human', align: 'centre', ...look });
  }

  /** A dimension line between two points, moved aside by `off` feet, with slashes and the length in feet and inches. */
  dim(a: Point, b: Point, off: number, look: { readonly size?: number; readonly words?: string } = {}): void {
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const [nx, ny] = [-(b[1] - a[1]) / length, (b[0] - a[0]) / length];
    const move = (p: Point, by: number): Point => [p[0] + nx * by, p[1] + ny * by];
    const [p, q] = [move(a, off), move(b, off)];
    const thin = { width: 0.4, colour: black };
    const over = 5 / this.#scale;
    this.line(p, q, thin);
    for (const [from, to] of [
      [a, p],
      [b, q],
    ] as const) {
      this.line(move(from, Math.sign(off) * over), move(to, Math.sign(off) * over), { width: 0.25 });
      const [x, y] = this.at(to);
      this.leaf.line([x - 3.5, y + 3.5], [x + 3.5, y - 3.5], { width: 1.1 });
    }
    const upright = Math.abs(a[0] - b[0]) < 0.01;
    const [mx, my] = this.at([(p[0] + q[0]) / 2, (p[1] + q[1]) / 2]);
    this.leaf.text([upright ? mx - 4 : mx, upright ? my : my - 4], look.words ?? feet(length), {
      face: 'human',
      size: look.size ?? 9,
      align: 'centre',
      angle: upright ? 90 : 0,
    });
  }

  /** A leader: words with a line and a dot at what they speak of. */
  note(words: string, at: Point, to: Point, look: TextLook = {}): void {
    const size = look.size ?? 9;
    const right = to[0] < at[0];
    this.leaf.text(this.at(at), words, { face: 'human', size, align: right ? 'left' : 'right', ...look });
    const [x, y] = this.at(at);
    const [tx, ty] = this.at(to);
    this.leaf.path(
      [
        [x + (right ? -3 : 3), y - size * 0.3],
        [x + (right ? -14 : 14), y - size * 0.3],
        [tx, ty],
      ],
      { width: 0.45 },
    );
    this.leaf.circle([tx, ty], 1.4, { width: 1.4 });
  }

  /** Slanted hatching inside a rectangle. */
  hatch([x, y]: Point, [w, h]: Point, step: number, look: LineLook = {}): void {
    for (let t = step; t < w + h; t += step) {
      const a: Point = [x + Math.min(t, w), y + Math.max(0, t - w)];
      const b: Point = [x + Math.max(0, t - h), y + Math.min(t, h)];
      this.line(a, b, { width: 0.3, ...look });
    }
  }
}

/** 13.5 -> 13'-6" */
export function feet(length: number): string {
  const inches = Math.round(length * 12);
  return `${Math.floor(inches / 12)}'-${inches % 12}"`;
}
