import type { Tone } from './drawing.ts';
import { rules } from './measures.ts';
import type { Pen } from './pen.ts';

/** Marks tell a state by shape; the word always stands beside them. */
export type Mark =
  | 'in hand'
  | 'not asked for'
  | 'awaited'
  | 'lapsing'
  | 'lapsed'
  | 'beside'
  | 'by hand'
  | 'missing'
  | 'to follow'
  | 'see tab';

type Point = readonly [number, number];

function circle(x: number, y: number, radius: number, from = 0, to = 360): readonly Point[] {
  const points: Point[] = [];
  for (let angle = from; angle <= to; angle += 10) {
    const turn = (angle * Math.PI) / 180;
    points.push([x + radius * Math.cos(turn), y + radius * Math.sin(turn)]);
  }
  return points;
}

/** Draws a mark about the middle (x, y), in a box of 8 by 8 points. */
export function drawMark(
  pen: Pen,
  mark: Mark,
  at: { readonly x: number; readonly y: number; readonly tone?: Tone },
): void {
  const { x, y, tone = 'ink' } = at;
  const width = rules.thin;
  const card = { x: x - 3, y: y - 4, width: 6, height: 8 };
  switch (mark) {
    case 'in hand':
      pen.shape(circle(x, y, 3.2), { fill: tone });
      break;
    case 'not asked for':
      pen.shape(circle(x, y, 3.2), { stroke: tone, width });
      break;
    case 'awaited':
      pen.shape(circle(x, y, 3.2, 90, 270), { fill: tone });
      pen.shape(circle(x, y, 3.2), { stroke: tone, width });
      break;
    case 'lapsing':
      pen.shape(
        [
          [x - 3, y - 4],
          [x + 3, y - 4],
          [x + 3, y + 1],
          [x, y + 4],
          [x - 3, y + 4],
        ],
        { stroke: tone, width },
      );
      pen.shape(
        [
          [x + 3, y + 1],
          [x, y + 1],
          [x, y + 4],
        ],
        { fill: tone },
      );
      break;
    case 'lapsed':
      pen.box(card, { stroke: tone, width });
      pen.shape(
        [
          [x - 4, y - 3],
          [x + 4, y + 1],
        ],
        { stroke: tone, width, open: true },
      );
      pen.shape(
        [
          [x - 4, y - 1],
          [x + 4, y + 3],
        ],
        { stroke: tone, width, open: true },
      );
      break;
    case 'beside':
      pen.box({ x: x - 4, y: y - 4, width: 5, height: 7 }, { stroke: tone, width });
      pen.box({ x: x - 1, y: y - 3, width: 5, height: 7 }, { fill: tone });
      break;
    case 'by hand':
      pen.box(card, { stroke: tone, width });
      pen.box({ x: x - 3, y: y - 4, width: 6, height: 4 }, { fill: tone });
      break;
    case 'missing':
      pen.box(card, { stroke: tone, width, dash: [1.6, 1.2] });
      break;
    case 'to follow':
      pen.box(card, { stroke: tone, width, dash: [1.6, 1.2] });
      pen.shape(circle(x, y, 1.2), { fill: tone });
      break;
    case 'see tab':
      pen.shape(
        [
          [x - 3.5, y],
          [x + 2, y],
        ],
        { stroke: tone, width, open: true },
      );
      pen.shape(
        [
          [x + 4, y],
          [x + 1, y + 2.4],
          [x + 1, y - 2.4],
        ],
        { fill: tone },
      );
  }
}

/** The margin bar of a finding: solid, open, dotted; a tick for what is only good to know. */
export type Bar = 'refused' | 'questioned' | 'ask first' | 'good to know';

const barTones: Readonly<Record<Bar, Tone>> = {
  refused: 'red',
  questioned: 'ochre',
  'ask first': 'ink',
  'good to know': 'green',
};

export function barTone(bar: Bar): Tone {
  return barTones[bar];
}

/** A bar of 4 points width from `top` down to `bottom`; a tick at the top where there is no bar. */
export function drawBar(
  pen: Pen,
  bar: Bar,
  at: { readonly x: number; readonly top: number; readonly bottom: number },
): void {
  const { x, top, bottom } = at;
  const tone = barTone(bar);
  const height = top - bottom;
  switch (bar) {
    case 'refused':
      pen.box({ x, y: bottom, width: 4, height }, { fill: tone });
      break;
    case 'questioned':
      pen.box({ x: x + 0.4, y: bottom + 0.4, width: 3.2, height: height - 0.8 }, { stroke: tone, width: 0.8 });
      break;
    case 'ask first':
      for (let y = top - 2; y > bottom; y -= 5) pen.shape(circle(x + 2, y, 1.3), { fill: tone });
      break;
    case 'good to know':
      pen.shape(
        [
          [x, top - 8],
          [x + 2.5, top - 11],
          [x + 7, top - 4],
        ],
        { stroke: tone, width: 1.4, open: true },
      );
  }
}
