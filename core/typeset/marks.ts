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

/** With as many corners as keep it within 0.05 points of round: there may be thousands of small ones on a sheet. */
function circle(x: number, y: number, radius: number, from = 0, to = 360): readonly Point[] {
  const points: Point[] = [];
  const step = radius < 2 ? 30 : 15;
  for (let angle = from; angle <= to; angle += step) {
    const turn = (angle * Math.PI) / 180;
    points.push([x + radius * Math.cos(turn), y + radius * Math.sin(turn)]);
  }
  return points;
}

interface MarkPlace {
  readonly pen: Pen;
  readonly x: number;
  readonly y: number;
  readonly tone: Tone;
}

const width = rules.thin;
const dashed = [1.6, 1.2] as const;

function card({ pen, x, y, tone }: MarkPlace, dash?: readonly number[]): void {
  pen.box({ x: x - 3, y: y - 4, width: 6, height: 8 }, { stroke: tone, width, ...(dash && { dash }) });
}

function disc({ pen, x, y, tone }: MarkPlace, radius: number): void {
  pen.shape(circle(x, y, radius), { fill: tone });
}

function ring({ pen, x, y, tone }: MarkPlace): void {
  pen.shape(circle(x, y, 3.2), { stroke: tone, width });
}

const drawn: Readonly<Record<Mark, (at: MarkPlace) => void>> = {
  'in hand': (at) => disc(at, 3.2),
  'not asked for': ring,
  awaited(at) {
    at.pen.shape(circle(at.x, at.y, 3.2, 90, 270), { fill: at.tone });
    ring(at);
  },
  lapsing({ pen, x, y, tone }) {
    const outline: readonly Point[] = [
      [x - 3, y - 4],
      [x + 3, y - 4],
      [x + 3, y + 1],
      [x, y + 4],
      [x - 3, y + 4],
    ];
    pen.shape(outline, { stroke: tone, width });
    pen.shape(
      [
        [x + 3, y + 1],
        [x, y + 1],
        [x, y + 4],
      ],
      { fill: tone },
    );
  },
  lapsed(at) {
    const { pen, x, y, tone } = at;
    card(at);
    for (const from of [y - 3, y - 1]) {
      const strike: readonly Point[] = [
        [x - 4, from],
        [x + 4, from + 4],
      ];
      pen.shape(strike, { stroke: tone, width, open: true });
    }
  },
  beside({ pen, x, y, tone }) {
    pen.box({ x: x - 4, y: y - 4, width: 5, height: 7 }, { stroke: tone, width });
    pen.box({ x: x - 1, y: y - 3, width: 5, height: 7 }, { fill: tone });
  },
  'by hand'(at) {
    card(at);
    at.pen.box({ x: at.x - 3, y: at.y - 4, width: 6, height: 4 }, { fill: at.tone });
  },
  missing: (at) => card(at, dashed),
  'to follow'(at) {
    card(at, dashed);
    disc(at, 1.2);
  },
  'see tab'({ pen, x, y, tone }) {
    const shaft: readonly Point[] = [
      [x - 3.5, y],
      [x + 2, y],
    ];
    const head: readonly Point[] = [
      [x + 4, y],
      [x + 1, y + 2.4],
      [x + 1, y - 2.4],
    ];
    pen.shape(shaft, { stroke: tone, width, open: true });
    pen.shape(head, { fill: tone });
  },
};

/** Draws a mark about the middle (x, y), in a box of 8 by 8 points. */
export function drawMark(
  pen: Pen,
  mark: Mark,
  at: { readonly x: number; readonly y: number; readonly tone?: Tone },
): void {
  drawn[mark]({ pen, x: at.x, y: at.y, tone: at.tone ?? 'ink' });
}

/** The margin bar of a finding: solid, open, dotted; a tick for what is only good to know. */
export type Bar = 'refused' | 'questioned' | 'ask first' | 'good to know';

const barTones: Readonly<Record<Bar, Tone>> = {
  refused: 'red',
  questioned: 'ochre',
  'ask first': 'ink',
  // Green says that something is in order; what is only good to know may be a paper that is missing.
  'good to know': 'pencil',
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
