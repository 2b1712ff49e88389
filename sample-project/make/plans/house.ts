import type { Point } from '../kit/ink.ts';
import type { LineLook } from '../kit/leaf.ts';
import type { View } from '../kit/view.ts';

export type Revision = 'A' | 'B' | 'C' | 'D';

export const revisions = {
  A: { day: '2025-12-08', words: 'First issue, for prices', bedrooms: 4 },
  B: { day: '2026-03-09', words: 'Porch, windows, panel moved', bedrooms: 4 },
  C: { day: '2026-04-15', words: 'Open study, now 3 bedrooms', bedrooms: 3 },
  D: { day: '2026-09-14', words: 'Headers, hall duct chase', bedrooms: 3 },
} as const satisfies Record<Revision, { day: string; words: string; bedrooms: number }>;

export const size: Point = [62, 30];
/** From revision C on the fourth bedroom is a study without door or closet. */
export function openStudy(revision: Revision): boolean {
  return revision >= 'C';
}

const outer = 0.5;
const inner = 0.375;

type Seg = readonly [Point, Point];
export interface Door {
  readonly at: Point;
  readonly width: number;
  /** Wall direction and the way it opens. */
  readonly wall: 'x' | 'y';
  readonly swing: 1 | -1;
  readonly hinge: 1 | -1;
}
export interface Window {
  readonly at: Point;
  readonly width: number;
  readonly wall: 'x' | 'y';
  readonly mark: string;
}
export interface Room {
  readonly name: string;
  readonly at: Point;
  readonly from: Point;
  readonly to: Point;
}

/** Inner walls, by their centre lines, in feet from the south-west corner. */
export function partitions(revision: Revision): readonly Seg[] {
  const closet4: Seg[] = openStudy(revision)
    ? []
    : [
        [
          [17, 11.2],
          [22, 11.2],
        ],
        [
          [17, 11.2],
          [17, 13.5],
        ],
      ];
  return [
    [
      [0.5, 13.5],
      [openStudy(revision) ? 15 : 22, 13.5],
    ],
    ...(openStudy(revision)
      ? ([
          [
            [20, 13.5],
            [22, 13.5],
          ],
        ] as Seg[])
      : []),
    [
      [0.5, 17],
      [22, 17],
    ],
    [
      [13, 0.5],
      [13, 13.5],
    ],
    [
      [13, 17],
      [13, 29.5],
    ],
    [
      [13, 25],
      [22, 25],
    ],
    [
      [22, 0.5],
      [22, 13.5],
    ],
    [
      [22, 17],
      [22, 29.5],
    ],
    [
      [0.5, 11.2],
      [7.5, 11.2],
    ],
    [
      [7.5, 11.2],
      [7.5, 13.5],
    ],
    [
      [0.5, 19.3],
      [7.5, 19.3],
    ],
    [
      [7.5, 17],
      [7.5, 19.3],
    ],
    ...closet4,
    [
      [46, 0.5],
      [46, 29.5],
    ],
    [
      [46, 15.5],
      [61.5, 15.5],
    ],
    [
      [46, 24],
      [61.5, 24],
    ],
    [
      [55, 15.5],
      [55, 24],
    ],
    [
      [32, 25],
      [36, 25],
    ],
    [
      [36, 25],
      [36, 29.5],
    ],
  ];
}

export function doors(revision: Revision): readonly Door[] {
  const fourth: Door[] = openStudy(revision)
    ? []
    : [
        { at: [15.2, 13.5], width: 2.67, wall: 'x', swing: -1, hinge: -1 },
        { at: [19.6, 11.2], width: 4, wall: 'x', swing: -1, hinge: 1 },
      ];
  return [
    { at: [30, 0.25], width: 3, wall: 'x', swing: 1, hinge: -1 },
    { at: [10.2, 13.5], width: 2.67, wall: 'x', swing: -1, hinge: 1 },
    { at: [10.2, 17], width: 2.67, wall: 'x', swing: 1, hinge: 1 },
    { at: [18.5, 17], width: 2.33, wall: 'x', swing: 1, hinge: -1 },
    { at: [4, 11.2], width: 4, wall: 'x', swing: -1, hinge: 1 },
    { at: [4, 19.3], width: 4, wall: 'x', swing: 1, hinge: 1 },
    { at: [17.5, 25], width: 2.33, wall: 'x', swing: -1, hinge: 1 },
    { at: [46, 12.6], width: 3, wall: 'y', swing: 1, hinge: 1 },
    { at: [50, 15.5], width: 2.67, wall: 'x', swing: 1, hinge: -1 },
    { at: [55, 19], width: 2.67, wall: 'y', swing: 1, hinge: 1 },
    { at: [46, 26.8], width: 3, wall: 'y', swing: 1, hinge: -1 },
    { at: [61.75, 26.8], width: 3, wall: 'y', swing: -1, hinge: 1 },
    { at: [41, 29.75], width: 6, wall: 'x', swing: -1, hinge: 1 },
    { at: [34, 25], width: 2, wall: 'x', swing: -1, hinge: 1 },
    ...fourth,
  ];
}

export const windows: readonly Window[] = [
  { at: [6.5, 0.25], width: 5, wall: 'x', mark: 'A' },
  { at: [17.5, 0.25], width: 5, wall: 'x', mark: 'A' },
  { at: [25.5, 0.25], width: 3, wall: 'x', mark: 'B' },
  { at: [36, 0.25], width: 6, wall: 'x', mark: 'C' },
  { at: [42.5, 0.25], width: 3, wall: 'x', mark: 'B' },
  { at: [54, 0.25], width: 6, wall: 'x', mark: 'C' },
  { at: [6.5, 29.75], width: 5, wall: 'x', mark: 'A' },
  { at: [17.5, 29.75], width: 2, wall: 'x', mark: 'D' },
  { at: [29, 29.75], width: 4, wall: 'x', mark: 'E' },
  { at: [0.25, 6], width: 4, wall: 'y', mark: 'F' },
  { at: [0.25, 15.25], width: 2, wall: 'y', mark: 'D' },
  { at: [0.25, 24.5], width: 4, wall: 'y', mark: 'F' },
  { at: [61.75, 8], width: 4, wall: 'y', mark: 'F' },
  { at: [61.75, 20], width: 2, wall: 'y', mark: 'D' },
];

export function rooms(revision: Revision): readonly Room[] {
  return [
    { name: 'BEDROOM 2', at: [6.5, 24.6], from: [0.5, 17], to: [13, 29.5] },
    { name: 'BEDROOM 3', at: [6.5, 6], from: [0.5, 0.5], to: [13, 13.5] },
    { name: openStudy(revision) ? 'STUDY (OPEN)' : 'BEDROOM 4', at: [17.5, 6], from: [13, 0.5], to: [22, 13.5] },
    { name: 'HALL', at: [13.5, 15.1], from: [0.5, 13.5], to: [22, 17] },
    { name: 'BATH 2', at: [17.5, 21], from: [13, 17], to: [22, 25] },
    { name: 'LINEN', at: [15.4, 27.4], from: [13, 25], to: [22, 29.5] },
    { name: 'GREAT ROOM', at: [34, 8.6], from: [22, 0.5], to: [46, 17] },
    { name: 'KITCHEN', at: [28.5, 22.4], from: [22, 17], to: [36, 29.5] },
    { name: 'DINING', at: [41, 22.4], from: [36, 17], to: [46, 29.5] },
    { name: 'PRIMARY BEDROOM', at: [54, 8], from: [46, 0.5], to: [61.5, 15.5] },
    { name: 'BATH 1', at: [50.5, 20.4], from: [46, 15.5], to: [55, 24] },
    { name: 'CLOSET', at: [58.6, 18], from: [55, 15.5], to: [61.5, 24] },
    { name: 'LAUNDRY', at: [54, 27], from: [46, 24], to: [61.5, 29.5] },
  ];
}

const white = [1, 1, 1] as const;

function opening(view: View, o: { at: Point; width: number; wall: 'x' | 'y' }, thick: number): void {
  const [w, h] = o.wall === 'x' ? [o.width, thick + 0.06] : [thick + 0.06, o.width];
  view.box([o.at[0] - w / 2, o.at[1] - h / 2], [w, h], { fill: white, width: 0 });
}

function drawWindow(view: View, w: Window, line: LineLook): void {
  opening(view, w, outer);
  const along = w.wall === 'x';
  const [dx, dy] = along ? [w.width / 2, outer / 2] : [outer / 2, w.width / 2];
  view.box([w.at[0] - dx, w.at[1] - dy], [dx * 2, dy * 2], line);
  if (along) view.line([w.at[0] - dx, w.at[1]], [w.at[0] + dx, w.at[1]], line);
  else view.line([w.at[0], w.at[1] - dy], [w.at[0], w.at[1] + dy], line);
}

function drawDoor(view: View, d: Door, line: LineLook): void {
  const isOuter = d.at[0] < 0.5 || d.at[1] < 0.5 || d.at[0] > 61.4 || d.at[1] > 29.4;
  opening(view, d, isOuter ? outer : inner);
  const half = d.width / 2;
  const wide = d.width > 3.5;
  if (d.wall === 'x' && wide) {
    view.line([d.at[0] - half, d.at[1] - 0.08], [d.at[0] + 0.2, d.at[1] - 0.08], line);
    view.line([d.at[0] - 0.2, d.at[1] + 0.08], [d.at[0] + half, d.at[1] + 0.08], line);
    return;
  }
  const hinge: Point = d.wall === 'x' ? [d.at[0] + half * d.hinge, d.at[1]] : [d.at[0], d.at[1] + half * d.hinge];
  const open: Point =
    d.wall === 'x' ? [hinge[0], hinge[1] + d.width * d.swing] : [hinge[0] + d.width * d.swing, hinge[1]];
  view.line(hinge, open, { ...line, width: (line.width ?? 0.6) * 1.6 });
  const a = Math.atan2(open[1] - hinge[1], open[0] - hinge[0]);
  const away = d.wall === 'x' ? (d.hinge > 0 ? Math.PI : 0) : d.hinge > 0 ? -Math.PI / 2 : Math.PI / 2;
  let turn = away - a;
  if (turn > Math.PI) turn -= 2 * Math.PI;
  if (turn < -Math.PI) turn += 2 * Math.PI;
  const deg = 180 / Math.PI;
  view.arc(hinge, d.width, [a * deg, (a + turn) * deg], { ...line, width: 0.35 });
}

/** The plan of all walls, doors and windows. `tint` is pale where the plan is only the ground for something else. */
export function drawWalls(view: View, revision: Revision, tint: readonly [number, number, number]): void {
  const fill = { fill: tint, width: 0 } as const;
  const [w, h] = size;
  for (const [at, dim] of [
    [
      [0, 0],
      [w, outer],
    ],
    [
      [0, h - outer],
      [w, outer],
    ],
    [
      [0, 0],
      [outer, h],
    ],
    [
      [w - outer, 0],
      [outer, h],
    ],
  ] as const)
    view.box(at, dim, fill);
  for (const [a, b] of partitions(revision)) {
    const flat = a[1] === b[1];
    const from: Point = flat
      ? [Math.min(a[0], b[0]) - inner / 2, a[1] - inner / 2]
      : [a[0] - inner / 2, Math.min(a[1], b[1]) - inner / 2];
    view.box(from, flat ? [Math.abs(b[0] - a[0]) + inner, inner] : [inner, Math.abs(b[1] - a[1]) + inner], fill);
  }
  const line = { colour: tint, width: 0.6 };
  for (const win of windows) drawWindow(view, win, line);
  for (const door of doors(revision)) drawDoor(view, door, line);
  view.box([24, -8], [22, 8], { colour: tint, width: 0.7, dash: [6, 3] });
  for (const x of [24.5, 31.5, 38.5, 45.5]) view.box([x - 0.3, -7.8], [0.6, 0.6], { colour: tint, width: 0.8 });
}

/** Fixtures and fittings in thin line. */
export function drawFittings(view: View, colour: readonly [number, number, number]): void {
  const thin = { colour, width: 0.45 };
  const fixtures: readonly (readonly [Point, Point])[] = [
    [
      [13.2, 22],
      [2.6, 2.8],
    ],
    [
      [19.4, 17.4],
      [2.4, 5],
    ],
    [
      [13.2, 18],
      [1.8, 3],
    ],
    [
      [46.2, 16],
      [1.8, 6],
    ],
    [
      [51.8, 20.8],
      [3, 3],
    ],
    [
      [46.2, 22.2],
      [1.8, 1.6],
    ],
    [
      [57.6, 26.6],
      [2.6, 2.6],
    ],
    [
      [54.8, 26.6],
      [2.6, 2.6],
    ],
    [
      [48.6, 27],
      [2.4, 2.4],
    ],
    [
      [22.2, 17.4],
      [2, 9.6],
    ],
    [
      [22.2, 27.4],
      [9.8, 2],
    ],
    [
      [26.4, 19.4],
      [3.2, 6],
    ],
    [
      [22.3, 21],
      [1.8, 2.5],
    ],
    [
      [32.2, 25.2],
      [3.6, 4.2],
    ],
  ];
  for (const [at, dim] of fixtures) view.box(at, dim, thin);
  for (const c of [
    [14.4, 19.5],
    [47.1, 17.8],
    [47.1, 20.6],
  ] as const)
    view.circle(c, 0.65, thin);
  view.box([27.6, 27.7], [2.8, 1.4], thin);
  view.circle([20.6, 23.9], 0.75, thin);
  view.circle([49.8, 23.1], 0.75, thin);
  view.circle([53.3, 22.3], 0.2, thin);
}
