import type { Book } from '../kit/book.ts';
import type { Point } from '../kit/ink.ts';
import { black, grey, pale } from '../kit/ink.ts';
import type { Leaf } from '../kit/leaf.ts';
import { View } from '../kit/view.ts';
import { type Revision, size, windows } from './house.ts';
import { caption, notes, openSheet } from './sheet-frame.ts';

const wall = 9;
const eave = 1.5;
const rise = 0.5;

/** Where a window's sill and head stand, by its mark. */
const heights: Readonly<Record<string, Point>> = {
  A: [2.67, 7],
  B: [2, 7],
  C: [2, 7],
  D: [4.5, 7],
  E: [3.6, 7],
  F: [2.67, 7],
};

function glass(view: View, x: number, width: number, mark: string): void {
  const [sill, head] = heights[mark] ?? [3, 7];
  view.box([x - width / 2 - 0.3, sill - 0.3], [width + 0.6, head - sill + 0.6], { width: 0.8, fill: [1, 1, 1] });
  view.box([x - width / 2, sill], [width, head - sill], { width: 1 });
  const panes = Math.max(1, Math.round(width / 2.2));
  for (let i = 1; i < panes; i += 1)
    view.line([x - width / 2 + (i * width) / panes, sill], [x - width / 2 + (i * width) / panes, head], { width: 0.7 });
  view.line([x - width / 2, (sill + head) / 2], [x + width / 2, (sill + head) / 2], { width: 0.5 });
}

function siding(view: View, from: number, to: number): void {
  for (let y = 0.5; y < wall; y += 0.58) view.line([from, y], [to, y], { width: 0.25, colour: grey });
  view.line([from - 14, -0.6], [to + 14, -0.6], { width: 1.8 });
}

function levels(view: View, x: number): void {
  for (const [y, words] of [
    [0, 'Floor 212.50'],
    [wall, 'Plate 9\'-0"'],
    [wall + (size[1] / 2) * rise + 0.4, 'Ridge 16\'-11"'],
  ] as const) {
    view.line([x, y], [x + 9, y], { width: 0.5, dash: [12, 4] });
    view.text([x + 4.8, y + 0.4], words, { size: 9 });
  }
}

/** Front or rear: the long side with the roof's slope seen flat. */
export function longSide(view: View, front: boolean): void {
  const flip = (x: number): number => (front ? x : size[0] - x);
  siding(view, 0, size[0]);
  view.box([0, -0.6], [size[0], wall + 0.6], { width: 1.4 });
  const ridge = wall + (size[1] / 2) * rise + 0.4;
  const low = wall - eave * rise;
  view.path(
    [
      [-1, low],
      [63, low],
      [63, ridge],
      [-1, ridge],
    ],
    { width: 1.4, close: true, fill: [0.95, 0.95, 0.94] },
  );
  for (let y = low + 0.5; y < ridge; y += 0.5) view.line([-1, y], [63, y], { width: 0.2, colour: pale });
  for (const w of windows) if (w.wall === 'x' && w.at[1] < 1 === front) glass(view, flip(w.at[0]), w.width, w.mark);
  if (front) porch(view);
  else {
    view.box([flip(41) - 3, 0], [6, 6.8], { width: 1.2, fill: [1, 1, 1] });
    view.line([flip(41), 0], [flip(41), 6.8], { width: 0.8 });
    view.box([flip(61.75) - 0.1, 0], [0.2, 6.8], { width: 1 });
  }
}

function porch(view: View): void {
  view.box([28.5, 0], [3, 6.8], { width: 1.3, fill: [1, 1, 1] });
  view.box([29.1, 3.4], [1.8, 2.8], { width: 0.7 });
  const top = 8.6;
  view.path(
    [
      [22.5, top],
      [47.5, top],
      [45.5, top + 2.6],
      [24.5, top + 2.6],
    ],
    { width: 1.3, close: true, fill: [0.92, 0.92, 0.91] },
  );
  for (const x of [24.5, 31.5, 38.5, 45.5]) view.box([x - 0.3, -0.3], [0.6, top + 0.1], { width: 1, fill: [1, 1, 1] });
  view.box([23.5, -0.6], [23, 0.4], { width: 1.2, fill: [0.9, 0.9, 0.9] });
}

/** A gable end, seen from the west or the east. */
function gable(view: View, west: boolean): void {
  const flip = (y: number): number => (west ? size[1] - y : y);
  siding(view, 0, size[1]);
  view.box([0, -0.6], [size[1], wall + 0.6], { width: 1.4 });
  const peak = wall + (size[1] / 2) * rise + 0.4;
  view.path(
    [
      [-eave, wall - eave * rise],
      [size[1] / 2, peak],
      [size[1] + eave, wall - eave * rise],
    ],
    { width: 2.2 },
  );
  view.path(
    [
      [0, wall],
      [size[1] / 2, peak - 0.5],
      [size[1], wall],
    ],
    { width: 1 },
  );
  view.path(
    [
      [13.2, 13],
      [15, 13.9],
      [16.8, 13],
      [16.8, 11.6],
      [13.2, 11.6],
    ],
    { width: 0.8, close: true },
  );
  for (let i = 1; i < 4; i += 1) view.line([13.3, 11.6 + i * 0.35], [16.7, 11.6 + i * 0.35], { width: 0.3 });
  for (const w of windows) if (w.wall === 'y' && w.at[0] < 1 === west) glass(view, flip(w.at[1]), w.width, w.mark);
  if (!west) view.box([flip(26.8) - 1.5, 0], [3, 6.8], { width: 1.3, fill: [1, 1, 1] });
  const side = west ? -8 : size[1];
  view.path(
    [
      [side, -0.3],
      [side + 8, -0.3],
      [side + 8, 8.6],
      [side, 8.6],
    ].map((p): Point => [p[0] ?? 0, p[1] ?? 0]),
    { width: 0.8, close: true, dash: [6, 4] },
  );
}

export function elevations(book: Book, revision: Revision): Leaf {
  const leaf = openSheet(book, 'A2', revision);
  const views: readonly [Point, string, (view: View) => void][] = [
    [[330, 430], 'West elevation (front)', (v) => longSide(v, true)],
    [[330, 880], 'East elevation (rear)', (v) => longSide(v, false)],
    [[390, 1370], 'North elevation', (v) => gable(v, true)],
    [[1240, 1370], 'South elevation', (v) => gable(v, false)],
  ];
  views.forEach(([origin, name, draw], i) => {
    const view = new View(leaf, origin, i < 2 ? 18 : 16);
    draw(view);
    levels(view, i < 2 ? 68 : size[1] + 6);
    caption(
      leaf,
      [origin[0], origin[1] + 78],
      [String(i + 1), name, i < 2 ? '1/4 in. = 1 ft' : 'about 2/9 in. = 1 ft, check sizes'],
    );
  });
  notes(leaf, [1760, 240], {
    title: 'Outside',
    width: 480,
    words: [
      'Shingles on felt, slope 6 in 12.',
      'Fiber cement lap siding, 7 in. to the weather.',
      'Grade falls 6 in. in the first 10 ft.',
      'House number on the porch post, figures 4 in. or more.',
    ],
  });
  return leaf;
}

export function roofPlan(book: Book, revision: Revision): Leaf {
  const leaf = openSheet(book, 'A3', revision);
  const view = new View(leaf, [600, 900], 18);
  view.box([0, 0], size, { width: 0.8, dash: [10, 6], colour: grey });
  view.box([-1, -eave], [64, size[1] + 2 * eave], { width: 2 });
  view.line([-1, 15], [63, 15], { width: 2 });
  view.path(
    [
      [22.5, -9.2],
      [47.5, -9.2],
      [47.5, -1.5],
      [22.5, -1.5],
    ],
    { width: 1.6, close: true },
  );
  view.line([22.5, -9.2], [24.5, -1.5], { width: 1 });
  view.line([47.5, -9.2], [45.5, -1.5], { width: 1 });
  for (let x = 1; x < 62; x += 2) {
    view.line([x, -eave], [x, 15], { width: 0.2, colour: pale });
    view.line([x, 15], [x, 31.5], { width: 0.2, colour: pale });
  }
  for (const [x, y, up] of [
    [10, 7, -1],
    [52, 7, -1],
    [10, 23, 1],
    [34, 23, 1],
    [52, 23, 1],
  ] as const) {
    view.line([x, y - 3 * up], [x, y + 3 * up], { width: 1.2 });
    view.path(
      [
        [x - 0.5, y + 2.2 * up],
        [x, y + 3 * up],
        [x + 0.5, y + 2.2 * up],
      ],
      { width: 1.2 },
    );
    view.text([x + 2.2, y - 0.2], '6 : 12', { size: 13 });
  }
  view.note('Ridge vent, whole length', [66, 36], [50, 15], { size: 12 });
  view.note('Gutter, drain 10 ft from house', [66, -6], [58, -1.5], { size: 12 });
  for (const [x, y] of [
    [20.6, 27],
    [51, 21],
    [33, 26.5],
  ] as const)
    view.circle([x, y], 0.5, { width: 1.4 });
  view.dim([-1, 31.5], [63, 31.5], 4, { size: 12 });
  view.dim([63, 31.5], [63, -1.5], 8, { size: 12 });
  caption(leaf, [600, 1260], ['1', 'Roof plan', '1/4 in. = 1 ft']);
  notes(leaf, [420, 1390], {
    title: 'Roof notes',
    width: 900,
    words: [
      'Vent area: 1,860 sq ft / 300 = 6.2 sq ft, half at the ridge, half at the eaves.',
      'Three plumbing vents and the bath fans go through the east slope, not seen from the lane.',
      'Drip edge at eaves and rakes. Ice barrier where the county asks for one.',
    ],
  });
  return leaf;
}

export function sections(book: Book, revision: Revision): Leaf {
  const leaf = openSheet(book, 'A4', revision);
  const view = new View(leaf, [330, 820], 27);
  view.box([0, -0.33], [30, 0.33], { width: 1.2, fill: [0.85, 0.85, 0.85] });
  for (const x of [0, 28.67]) view.box([x, -1.6], [1.33, 1.27], { width: 1.2, fill: [0.85, 0.85, 0.85] });
  view.hatch([0, -1.6], [30, 1.3], 0.6, { colour: pale });
  for (const x of [0, 29.54]) view.box([x, 0], [0.46, wall], { width: 1.2, fill: [0.9, 0.9, 0.88] });
  view.box([-0.1, wall], [30.2, 0.29], { width: 1 });
  const peak = wall + 7.9;
  view.path(
    [
      [-eave, wall - eave * rise + 0.3],
      [15, peak],
      [30 + eave, wall - eave * rise + 0.3],
    ],
    { width: 2.4 },
  );
  view.path(
    [
      [-eave, wall - eave * rise - 0.05],
      [15, peak - 0.4],
      [30 + eave, wall - eave * rise - 0.05],
    ],
    { width: 1 },
  );
  for (const [a, b] of [
    [
      [7.5, wall + 0.3],
      [11, 14.4],
    ],
    [
      [11, 14.4],
      [15, wall + 0.3],
    ],
    [
      [15, wall + 0.3],
      [19, 14.4],
    ],
    [
      [19, 14.4],
      [22.5, wall + 0.3],
    ],
  ] as const)
    view.line(a, b, { width: 1.2 });
  for (let x = 0.6; x < 29.6; x += 0.55)
    view.leaf.curve(
      [
        [x, wall + 0.35],
        [x + 0.14, wall + 1.5],
        [x + 0.28, wall + 0.35],
      ].map((p): Point => view.at([p[0] ?? 0, p[1] ?? 0])),
      { width: 0.35, colour: grey },
    );
  view.line([-6, -0.5], [0, -0.5], { width: 2 });
  view.line([30, -0.5], [36, -0.5], { width: 2 });
  view.line([16.8, 0], [16.8, wall], { width: 4, colour: pale });
  view.line([13.4, 0], [13.4, wall], { width: 4, colour: pale });
  const say: readonly [string, Point, Point][] = [
    ['Shingles, felt, 7/16 in. sheathing', [36, 15], [26, 11.4]],
    ['Trusses at 24 in., see truss sheets', [36, 13], [20.6, 12]],
    ['R-49 blown, baffles at eaves', [36, 11], [26, 9.9]],
    ['5/8 in. wallboard', [36, 9.3], [24, 9.1]],
    ['2x6 at 16 in., R-21, 7/16 in. sheathing, wrap, siding', [36, 6], [29.8, 5]],
    ['4 in. slab, vapor sheet, 4 in. gravel', [36, 2], [24, -0.15]],
    ['Edge R-10, 2 ft down', [36, -1.4], [29.3, -1]],
    ['Footing 16 x 12 in., 18 in. below grade', [36, -3], [29.3, -1.5]],
  ];
  for (const [words, at, to] of say) view.note(words, at, to, { size: 13 });
  view.dim([0, 0], [0, wall], 3, { size: 12 });
  view.dim([0, -1.6], [30, -1.6], -2.4, { size: 12 });
  caption(leaf, [330, 960], ['1', 'Cross section', '3/8 in. = 1 ft']);
  longSection(leaf);
  return leaf;
}

function longSection(leaf: Leaf): void {
  const view = new View(leaf, [330, 1460], 18);
  view.box([0, -0.33], [62, 0.33], { width: 1, fill: [0.85, 0.85, 0.85] });
  for (const x of [0, 13, 22, 46, 55, 61.6]) view.box([x, 0], [0.4, wall], { width: 0.9, fill: [0.92, 0.92, 0.9] });
  view.line([0, wall], [62, wall], { width: 1.4, colour: black });
  view.box([-1, wall + 7.4], [64, 0.5], { width: 1.2 });
  for (let x = 1; x < 62; x += 2) view.line([x, wall], [x, wall + 7.4], { width: 0.4, colour: grey });
  for (const [x, words] of [
    [6.5, 'BEDROOM'],
    [17.5, 'STUDY / BED'],
    [34, 'GREAT ROOM'],
    [50.5, 'PRIMARY'],
    [58, 'BEDROOM'],
  ] as const)
    view.text([x, 4.4], words, { size: 11, colour: grey });
  view.line([-5, -0.5], [67, -0.5], { width: 1.8 });
  caption(leaf, [330, 1560], ['2', 'Long section', '1/4 in. = 1 ft']);
}
