/** x from the left, y from the top, in points: like a ruler laid on the sheet. */
export type Point = readonly [number, number];

export type Colour = readonly [number, number, number];

export const black: Colour = [0.08, 0.08, 0.09];
export const grey: Colour = [0.45, 0.46, 0.48];
export const pale: Colour = [0.78, 0.79, 0.8];
export const blue: Colour = [0.13, 0.2, 0.5];
export const red: Colour = [0.62, 0.13, 0.12];
export const green: Colour = [0.16, 0.36, 0.26];

const n = (value: number): string => String(Math.round(value * 100) / 100);

/** Collects the operators of one content stream (ISO 32000-1, 8.5), saying colour and width only where they change. */
export class Ink {
  readonly #ops: string[] = [];
  #stroke = '';
  #fill = '';
  #width = '';
  #dash = '';

  raw(op: string): void {
    this.#ops.push(op);
  }

  stroke(colour: Colour, width: number, dash: readonly number[] = []): void {
    const c = `${colour.map(n).join(' ')} RG`;
    const w = `${n(width)} w`;
    const d = `[${dash.map(n).join(' ')}] 0 d`;
    if (c !== this.#stroke) this.raw(c);
    if (w !== this.#width) this.raw(w);
    if (d !== this.#dash) this.raw(d);
    this.#stroke = c;
    this.#width = w;
    this.#dash = d;
  }

  fill(colour: Colour): void {
    const c = `${colour.map(n).join(' ')} rg`;
    if (c !== this.#fill) this.raw(c);
    this.#fill = c;
  }

  path(points: readonly Point[], paint: 'S' | 's' | 'f' | 'B' | 'b'): void {
    const words = points.map(([x, y], i) => `${n(x)} ${n(y)} ${i === 0 ? 'm' : 'l'}`);
    this.raw(`${words.join(' ')} ${paint}`);
  }

  /** A quarter-by-quarter arc from angle `from` to `to` in degrees, counterclockwise. */
  arc(centre: Point, radius: number, from: number, to: number): void {
    const steps = Math.max(1, Math.ceil(Math.abs(to - from) / 45));
    const turn = ((to - from) / steps) * (Math.PI / 180);
    const k = (4 / 3) * Math.tan(turn / 4) * radius;
    const at = (a: number): Point => [centre[0] + radius * Math.cos(a), centre[1] + radius * Math.sin(a)];
    let a = (from * Math.PI) / 180;
    const words = [`${n(at(a)[0])} ${n(at(a)[1])} m`];
    for (let i = 0; i < steps; i += 1) {
      const [x0, y0] = at(a);
      const [x1, y1] = at(a + turn);
      const c1 = `${n(x0 - k * Math.sin(a))} ${n(y0 + k * Math.cos(a))}`;
      a += turn;
      words.push(`${c1} ${n(x1 + k * Math.sin(a))} ${n(y1 - k * Math.cos(a))} ${n(x1)} ${n(y1)} c`);
    }
    this.raw(`${words.join(' ')} S`);
  }

  /** A soft curve through all points (Catmull-Rom as Bezier segments). */
  curve(points: readonly Point[]): void {
    const at = (i: number): Point => points[Math.min(Math.max(i, 0), points.length - 1)] ?? [0, 0];
    const words = [`${n(at(0)[0])} ${n(at(0)[1])} m`];
    for (let i = 0; i + 1 < points.length; i += 1) {
      const [p0, p1, p2, p3] = [at(i - 1), at(i), at(i + 1), at(i + 2)];
      const c1 = `${n(p1[0] + (p2[0] - p0[0]) / 6)} ${n(p1[1] + (p2[1] - p0[1]) / 6)}`;
      const c2 = `${n(p2[0] - (p3[0] - p1[0]) / 6)} ${n(p2[1] - (p3[1] - p1[1]) / 6)}`;
      words.push(`${c1} ${c2} ${n(p2[0])} ${n(p2[1])} c`);
    }
    this.raw(`${words.join(' ')} S`);
  }

  /** Text at a point; `hex` is the font's own encoding. Angle in degrees counterclockwise. */
  text(hex: string, font: string, size: number, where: readonly [number, number, number]): void {
    const [x, y, angle] = where;
    const c = Math.cos((angle * Math.PI) / 180);
    const s = Math.sin((angle * Math.PI) / 180);
    const turn = [c, s, -s, c].map((v) => String(Math.round(v * 1e4) / 1e4)).join(' ');
    this.raw(`BT ${font} ${n(size)} Tf ${turn} ${n(x)} ${n(y)} Tm ${hex} Tj ET`);
  }

  /** Everything written between is painted together; state is forgotten after. */
  group(draw: () => void, before = ''): void {
    this.raw(`q ${before}`.trim());
    this.forget();
    draw();
    this.raw('Q');
    this.forget();
  }

  forget(): void {
    this.#stroke = '';
    this.#fill = '';
    this.#width = '';
    this.#dash = '';
  }

  toString(): string {
    return this.#ops.join('\n');
  }
}
