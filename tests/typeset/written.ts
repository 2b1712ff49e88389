import { expect } from 'vitest';
import type { Drawing, DrawOp, FontMetrics } from '../../core/typeset/drawing.ts';

export type TextOp = Extract<DrawOp, { op: 'text' }>;

export const textsOf = (drawing: Drawing): readonly TextOp[] =>
  drawing.ops.flatMap((op) => (op.op === 'text' ? [op] : []));

/** All words of a sheet in drawing order, runs joined. */
export const wordsOf = (drawing: Drawing): string =>
  textsOf(drawing)
    .map(({ text }) => text)
    .join(' ');

export interface Ink {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

/** What a text touches, from below the line to the height of its capitals. */
export function inkOf(op: TextOp, metrics: FontMetrics): Ink {
  const width = metrics.widthOf(op.text, op.face, op.size);
  const [up, down] = [op.size * 0.7, op.size * 0.2];
  return op.turn === 90
    ? { text: op.text, left: op.x - up, right: op.x + down, bottom: op.y, top: op.y + width }
    : { text: op.text, left: op.x, right: op.x + width, bottom: op.y - down, top: op.y + up };
}

/** Every text stands on the sheet, and no two texts touch each other. */
export function expectTidy(drawing: Drawing, metrics: FontMetrics): void {
  const inks = textsOf(drawing).map((op) => inkOf(op, metrics));
  for (const ink of inks) {
    const inside = ink.left >= 18 && ink.right <= drawing.width && ink.bottom >= 18 && ink.top <= drawing.height - 18;
    if (!inside) expect.fail(`"${ink.text}" leaves the sheet: ${JSON.stringify(ink)}`);
  }
  for (const [at, a] of inks.entries()) {
    for (const b of inks.slice(at + 1)) {
      const apart =
        a.right <= b.left + 0.1 || b.right <= a.left + 0.1 || a.top <= b.bottom + 0.1 || b.top <= a.bottom + 0.1;
      if (!apart) expect.fail(`"${a.text}" and "${b.text}" touch: ${JSON.stringify([a, b])}`);
    }
  }
}
