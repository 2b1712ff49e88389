import type { Book } from '../kit/book.ts';
import type { Point } from '../kit/ink.ts';
import { grey, pale } from '../kit/ink.ts';
import type { Leaf } from '../kit/leaf.ts';
import { View } from '../kit/view.ts';
import { partitions, type Revision, size } from './house.ts';
import { caption, notes, openSheet, schedule } from './sheet-frame.ts';

export function foundation(book: Book, revision: Revision): Leaf {
  const leaf = openSheet(book, 'S1', revision);
  const view = new View(leaf, [600, 880], 18);
  view.box([0, 0], size, { width: 2.2 });
  view.box([1.33, 1.33], [size[0] - 2.66, size[1] - 2.66], { width: 1, dash: [10, 5] });
  view.box([24, -8], [22, 8], { width: 1.4 });
  for (const x of [24.5, 31.5, 38.5, 45.5]) view.box([x - 1, -8.2], [2, 2], { width: 1, dash: [5, 3] });
  for (const [a, b] of [
    [
      [13, 1.3],
      [13, 28.7],
    ],
    [
      [22, 1.3],
      [22, 28.7],
    ],
    [
      [46, 1.3],
      [46, 28.7],
    ],
  ] as const) {
    view.line([a[0] - 0.6, a[1]], [b[0] - 0.6, b[1]], { width: 0.8, dash: [8, 5] });
    view.line([a[0] + 0.6, a[1]], [b[0] + 0.6, b[1]], { width: 0.8, dash: [8, 5] });
  }
  for (let x = 4; x < 62; x += 4) view.line([x, 1.4], [x, 28.6], { width: 0.2, colour: pale });
  for (let y = 4; y < 30; y += 4) view.line([1.4, y], [60.6, y], { width: 0.2, colour: pale });
  for (let i = 0; i < 16; i += 1) for (const y of [0.4, 29.6]) view.circle([2 + i * 3.87, y], 0.14, { width: 1.2 });
  view.text([34, 15.5], '4 in. slab on vapor sheet on 4 in. gravel, mesh 6x6', { size: 13 });
  view.note('Anchor bolts 1/2 in. at 4 ft, 12 in. from ends', [66, 34], [59.9, 29.6], { size: 12 });
  view.note('Thickened 16 x 12 in. under bearing walls', [66, -4], [46.6, 2], { size: 12 });
  view.note('Grounding bar left up', [66, -7], [61.2, 28], { size: 12 });
  view.note('Porch pads 24 x 24 x 12 in.', [10, -12], [23.6, -7.4], { size: 12 });
  view.dim([0, 30], [62, 30], 5, { size: 12 });
  view.dim([62, 30], [62, 0], 6, { size: 12 });
  for (const [a, b] of [
    [0, 13],
    [13, 22],
    [22, 46],
    [46, 62],
  ] as const)
    view.dim([b, 0], [a, 0], 10);
  caption(leaf, [600, 1260], ['1', 'Foundation plan', '1/4 in. = 1 ft']);
  notes(leaf, [420, 1380], {
    title: 'Foundation notes',
    width: 860,
    words: [
      'Bottom of footings 18 in. below finished grade on undisturbed soil, or deeper where the county asks.',
      'Two no. 4 bars top and bottom, laps 20 in. Concrete 3,000 psi at 28 days.',
      'Soil treated against termites before the vapor sheet; hold the treatment record for the slab inspection.',
      'No concrete before the county has passed trench and steel.',
    ],
  });
  return leaf;
}

export function framing(book: Book, revision: Revision): Leaf {
  const leaf = openSheet(book, 'S2', revision);
  const view = new View(leaf, [600, 880], 18);
  view.box([0, 0], size, { width: 1.4 });
  for (const [a, b] of partitions(revision)) view.line(a, b, { width: 0.5, colour: pale });
  view.box([-1, -1.5], [64, 33], { width: 0.7, dash: [8, 5] });
  for (let i = 0; i <= 31; i += 1) {
    const x = Math.min(i * 2 + 0.1, 61.9);
    view.line([x, -1.5], [x, 31.5], { width: i === 0 || i === 31 ? 1.8 : 0.7 });
  }
  for (const [x, words] of [
    [0.1, 'T1 gable'],
    [12.1, 'T2 (x 11)'],
    [34.1, 'T3 vault (x 12)'],
    [54.1, 'T2 (x 7)'],
    [61.9, 'T1 gable'],
  ] as const) {
    const [px, py] = view.at([x, 32.3]);
    view.leaf.text([px, py], words, { face: 'humanBold', size: 12, align: 'centre' });
  }
  for (const [x, w] of [
    [6.5, 5],
    [17.5, 5],
    [30, 3],
    [36, 6],
    [54, 6],
  ] as const)
    view.line([x - w / 2 - 0.3, 0.1], [x + w / 2 + 0.3, 0.1], { width: 4 });
  view.note('Headers 2 - 2x10 over openings to 6 ft', [66, -5], [56, 0.1], { size: 12 });
  view.note('Porch beam 3 - 2x10', [10, -12], [27, -7.6], { size: 12 });
  view.line([24, -7.6], [46, -7.6], { width: 3.4 });
  for (const p of [
    [0.4, 0.4],
    [61.6, 0.4],
    [0.4, 29.6],
    [61.6, 29.6],
  ] as const)
    view.circle(p, 0.4, { width: 2 });
  view.note('Hold-down, each corner', [66, 35], [61.6, 29.6], { size: 12 });
  view.dim([0, 31.5], [62, 31.5], 4.5, { size: 12 });
  caption(leaf, [600, 1260], ['1', 'Roof framing plan', '1/4 in. = 1 ft']);
  notes(leaf, [420, 1380], {
    title: 'Framing notes',
    width: 860,
    words: [
      `Truss layout from the truss maker governs; it must be made from this revision (${revision}).`,
      'Trusses tied to each plate. Permanent bracing as on the truss sheets.',
      'Headers in outside walls filled with R-10.',
      'Sheathing nailed 6 in. edges, 12 in. field; corners as on S3.',
    ],
  });
  schedule(leaf, [1440, 1400], {
    title: 'Posts and headers',
    widths: [220, 220, 220],
    rows: [
      ['Opening', 'Header', 'Jacks'],
      ['to 3 ft', '2 - 2x6', '1'],
      ['to 5 ft', revision === 'D' ? '2 - 2x10' : '2 - 2x8', revision === 'D' ? '2' : '1'],
      ['to 6 ft', '2 - 2x10', '2'],
    ],
  });
  if (revision === 'D') {
    cloud(leaf, [1430, 1376], [690, 140]);
    cloud(leaf, view.at([23, 17.5]), [view.scale * 23, view.scale * 4.2]);
    view.note('D: duct chase between trusses, none cut', [52, 39], [36, 17.4], { size: 12 });
  }
  return leaf;
}

/** A ring of arcs round what a revision changed, as draughtsmen draw it. */
function cloud(leaf: Leaf, [x, y]: Point, [w, h]: Point): void {
  const r = 14;
  const along = (length: number): readonly number[] =>
    Array.from(
      { length: Math.round(length / (2 * r)) },
      (_, i) => (i * 2 + 1) * (length / Math.round(length / (2 * r)) / 2),
    );
  for (const d of along(w)) {
    leaf.arc([x + d, y], r, [0, 180], { width: 1.4 });
    leaf.arc([x + d, y + h], r, [180, 360], { width: 1.4 });
  }
  for (const d of along(h)) {
    leaf.arc([x, y + d], r, [90, 270], { width: 1.4 });
    leaf.arc([x + w, y + d], r, [270, 450], { width: 1.4 });
  }
}

export function details(book: Book, revision: Revision): Leaf {
  const leaf = openSheet(book, 'S3', revision);
  const draw: readonly [string, (view: View) => void][] = [
    [
      'Footing and slab edge',
      (v) => {
        v.box([0, -1.5], [1.33, 1], { fill: [0.86, 0.86, 0.86], width: 1.6 });
        v.path(
          [
            [0, -0.5],
            [0, 0.33],
            [4, 0.33],
            [4, 0],
            [1.33, -0.1],
            [1.33, -0.5],
          ],
          { fill: [0.86, 0.86, 0.86], width: 1.6, close: true },
        );
        v.box([-0.2, -1.5], [0.17, 1.8], { width: 1 });
        v.hatch([-0.2, -1.5], [0.17, 1.8], 0.12);
        for (const p of [
          [0.4, -1.3],
          [0.95, -1.3],
          [0.4, -0.7],
        ] as const)
          v.circle(p, 0.05, { width: 3 });
        v.box([0.1, 0.33], [0.46, 0.12], { width: 1.2 });
        v.line([0.33, 0.5], [0.33, -0.6], { width: 2 });
        v.line([-1.6, -0.2], [-0.2, -0.1], { width: 2 });
        v.note('1/2 in. bolt', [2.2, 1], [0.36, 0.45], { size: 12 });
        v.note('R-10 edge, 2 ft', [-0.9, 0.9], [-0.12, -0.2], { size: 12 });
        v.note('no. 4 bars, 3 in. cover', [2.2, -1.6], [1, -1.3], { size: 12 });
      },
    ],
    [
      'Wall and eave',
      (v) => {
        v.box([0, -1.6], [0.46, 1.6], { width: 1.4 });
        for (const y of [-0.25, -0.12]) v.line([0, y], [0.46, y], { width: 1 });
        v.path(
          [
            [-1.5, -0.75],
            [2.6, 1.3],
            [2.6, 1.6],
            [-1.5, -0.45],
          ],
          { width: 1.4, close: true },
        );
        v.box([-1.55, -0.85], [0.1, 0.5], { width: 1 });
        v.line([0.46, 0], [3, 0], { width: 1.4 });
        for (let x = 0.8; x < 3; x += 0.25)
          v.leaf.curve(
            [
              [x, 0.05],
              [x + 0.06, 0.7],
              [x + 0.12, 0.05],
            ].map((p): Point => v.at([p[0] ?? 0, p[1] ?? 0])),
            { width: 0.4, colour: grey },
          );
        v.note('Baffle, 2 in. clear', [2.6, 2], [0.6, 0.35], { size: 12 });
        v.note('Truss tie at each plate', [2.4, -1], [0.3, -0.1], { size: 12 });
        v.note('Vented soffit', [-1.2, -1.5], [-0.8, -0.6], { size: 12 });
      },
    ],
    [
      'Window head',
      (v) => {
        v.box([0, 0], [0.46, 0.9], { width: 1.4 });
        v.line([0, 0], [0.46, 0.9], { width: 0.6 });
        v.line([0.46, 0], [0, 0.9], { width: 0.6 });
        v.box([0.05, -1.2], [0.36, 1.15], { width: 1.2 });
        v.line([0.2, -1.2], [0.2, -0.05], { width: 0.6 });
        v.path(
          [
            [-0.25, -0.05],
            [0, 0],
            [0, 0.4],
          ],
          { width: 1.6 },
        );
        v.note('Metal flashing over', [-0.6, 1.1], [-0.05, 0.1], { size: 12 });
        v.note('Header, R-10 fill', [1.4, 1], [0.3, 0.5], { size: 12 });
        v.note('Sealed to wrap', [1.4, -0.8], [0.42, -0.4], { size: 12 });
      },
    ],
    [
      'Hold-down at corner',
      (v) => {
        v.box([0, 0], [0.25, 2], { width: 1.2 });
        v.box([0.25, 0], [0.25, 2], { width: 1.2 });
        v.box([0.5, 0.25], [0.12, 0.9], { width: 1.6, fill: [0.8, 0.8, 0.8] });
        v.line([0.62, 0.3], [0.62, -0.9], { width: 2.4 });
        v.box([-0.5, -0.15], [2, 0.15], { width: 1.2 });
        v.box([-0.6, -1.1], [2.2, 0.95], { width: 1.2, fill: [0.88, 0.88, 0.88] });
        for (const y of [0.4, 0.6, 0.8, 1]) v.circle([0.5, y], 0.03, { width: 2 });
        v.note('5/8 in. rod, 8 in. deep', [2, -0.6], [0.62, -0.7], { size: 12 });
        v.note('Double stud', [2, 1.7], [0.4, 1.5], { size: 12 });
      },
    ],
    [
      'Porch post base',
      (v) => {
        v.box([0.3, 0.15], [0.46, 2], { width: 1.4 });
        v.box([0.2, 0], [0.66, 0.15], { width: 1.4, fill: [0.8, 0.8, 0.8] });
        v.box([-0.6, -0.35], [2.3, 0.35], { width: 1.2, fill: [0.88, 0.88, 0.88] });
        v.box([-0.3, -1.35], [1.7, 1], { width: 1.2, fill: [0.88, 0.88, 0.88] });
        v.note('Stand-off 1 in.', [2, 0.6], [0.6, 0.08], { size: 12 });
        v.note('Pad 24 x 24 x 12 in.', [2, -1], [1.2, -0.9], { size: 12 });
      },
    ],
    [
      'Sheathing corner',
      (v) => {
        v.box([-1, -1], [2.6, 2.8], { width: 1.4 });
        for (let x = -1; x <= 1.6; x += 0.433) v.line([x, -1], [x, 1.8], { width: 0.5, colour: grey });
        for (let y = -0.95; y < 1.8; y += 0.16) for (const x of [-0.96, 1.56]) v.circle([x, y], 0.012, { width: 1.4 });
        for (let x = -0.9; x < 1.6; x += 0.16) for (const y of [-0.95, 1.75]) v.circle([x, y], 0.012, { width: 1.4 });
        v.note('8d at 6 in. edges', [2.4, 1.9], [1.56, 1.2], { size: 12 });
        v.note('12 in. in field', [2.4, -0.4], [0.74, 0], { size: 12 });
      },
    ],
  ];
  draw.forEach(([name, paint], i) => {
    const origin: Point = [360 + (i % 3) * 660, 430 + Math.floor(i / 3) * 760];
    const view = new View(leaf, origin, 118);
    paint(view);
    caption(leaf, [origin[0] - 150, origin[1] + 260], [String(i + 1), name, '1 1/2 in. = 1 ft, about']);
  });
  return leaf;
}
