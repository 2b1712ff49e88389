import type { Book } from '../kit/book.ts';
import type { Point } from '../kit/ink.ts';
import { black } from '../kit/ink.ts';
import type { Leaf } from '../kit/leaf.ts';
import type { View } from '../kit/view.ts';
import { ground } from './floor.ts';
import { openStudy, type Revision, revisions, rooms } from './house.ts';
import { caption, notes, openSheet, schedule } from './sheet-frame.ts';

const outlet = (view: View, [x, y]: Point, wall: Point): void => {
  view.circle([x, y], 0.28, { width: 1 });
  for (const d of [-0.12, 0.12])
    view.line(
      [x + d * Math.abs(wall[1]) - wall[0] * 0.28, y + d * Math.abs(wall[0]) - wall[1] * 0.28],
      [x + d * Math.abs(wall[1]) + wall[0] * 0.5, y + d * Math.abs(wall[0]) + wall[1] * 0.5],
      { width: 0.8 },
    );
};

export function electrical(book: Book, revision: Revision): Leaf {
  const leaf = openSheet(book, 'E1', revision);
  const view = ground(leaf, revision);
  for (const room of rooms(revision)) {
    const [cx, cy] = room.at;
    view.circle([cx, cy + 2], 0.42, { width: 1 });
    view.line([cx - 0.42, cy + 2], [cx + 0.42, cy + 2], { width: 0.8 });
    view.line([cx, cy + 1.58], [cx, cy + 2.42], { width: 0.8 });
    const [[x0, y0], [x1, y1]] = [room.from, room.to];
    if (x1 - x0 > 6 && y1 - y0 > 5) {
      for (const p of [
        [x0 + (x1 - x0) * 0.3, y0 + 0.6, 0, -1],
        [x0 + (x1 - x0) * 0.75, y1 - 0.6, 0, 1],
        [x0 + 0.6, y0 + (y1 - y0) * 0.6, -1, 0],
        [x1 - 0.6, y0 + (y1 - y0) * 0.4, 1, 0],
      ] as const)
        outlet(view, [p[0], p[1]], [p[2], p[3]]);
      view.text([x1 - 1.2, y0 + 1.1], 'S', { face: 'humanBold', size: 12 });
      const [sx, sy] = view.at([x1 - 1.4, y0 + 1.4]);
      const [lx, ly] = view.at([cx, cy + 2]);
      leaf.curve(
        [
          [sx, sy],
          [(sx + lx) / 2 + 14, (sy + ly) / 2 + 10],
          [lx, ly],
        ],
        { width: 0.6, dash: [5, 3] },
      );
    }
    if (/BED/.test(room.name) || room.name === 'HALL')
      view.text([cx + 2.4, cy + 1.7], 'SA', { face: 'humanBold', size: 11 });
  }
  view.box([60.2, 25.2], [1, 2.4], { width: 1.2, fill: [0.2, 0.2, 0.2] });
  view.note('Panel 200 A, clear space 30 x 36 in.', [65, 31], [60.7, 26.4], { size: 12 });
  view.note('Meter, underground service', [65, 28], [62.2, 25], { size: 12 });
  caption(leaf, [600, 1220], ['1', 'Electrical plan', '1/4 in. = 1 ft']);
  schedule(leaf, [420, 1360], {
    title: 'Signs',
    widths: [70, 330],
    rows: [
      ['', 'Means'],
      ['o=', 'Receptacle'],
      ['(+)', 'Light'],
      ['S', 'Switch'],
      ['SA', 'Smoke alarm, joined'],
    ],
    size: 11,
  });
  notes(leaf, [900, 1340], {
    title: 'Electrical notes',
    width: 720,
    words: [
      'Circuits by the licensed electrician; this sheet shows places only.',
      'Ground-fault protection in baths, kitchen, laundry, outside; arc-fault where asked for.',
      'Temporary and permanent power after the county has passed them; the cooperative energises.',
      openStudy(revision)
        ? 'Study wired as before; its alarm moved to the hall side of the opening.'
        : 'Each bedroom has its own smoke alarm.',
    ],
  });
  return leaf;
}

export function plumbing(book: Book, revision: Revision): Leaf {
  const leaf = openSheet(book, 'P1', revision);
  const view = ground(leaf, revision);
  const drain = { width: 2, colour: black };
  const trunk: Point[] = [
    [-6, 20.5],
    [13, 20.5],
    [20, 20.5],
    [24, 21.5],
    [47, 19],
    [50, 23],
    [54, 26],
  ];
  view.path(trunk, drain);
  for (const [a, b] of [
    [
      [14.4, 19.5],
      [14.4, 20.5],
    ],
    [
      [20.6, 23.9],
      [20, 20.5],
    ],
    [
      [14.5, 23],
      [15, 20.5],
    ],
    [
      [23.2, 22],
      [24, 21.5],
    ],
    [
      [28.6, 28.4],
      [28.6, 21.1],
    ],
    [
      [47.1, 17.8],
      [47, 19],
    ],
    [
      [47.1, 20.6],
      [47, 19],
    ],
    [
      [53.3, 22.3],
      [50, 23],
    ],
    [
      [55.4, 27.6],
      [54, 26],
    ],
  ] as const)
    view.path([a, b], { width: 1.3 });
  const cold: Point[] = [
    [70, 28.6],
    [59, 28.6],
    [50, 28.6],
    [36, 26.2],
    [23, 26.2],
    [21, 22],
    [14, 22],
  ];
  view.path(cold, { width: 1, dash: [12, 4], colour: [0.1, 0.25, 0.6] });
  view.path(
    cold.slice(2).map(([x, y]): Point => [x, y - 0.5]),
    { width: 1, dash: [3, 3], colour: [0.65, 0.15, 0.1] },
  );
  view.note('3 in. to tank, 1/4 in. per ft', [-4, 31], [-3, 20.5], { size: 12 });
  view.note('From well, 1 in., 30 in. deep', [65, 33], [66, 28.6], { size: 12 });
  view.note('Water heater, pan, valve piped out', [65, 23], [49.8, 28.2], { size: 12 });
  for (const p of [
    [20.6, 27],
    [51, 21],
    [33, 26.5],
  ] as const) {
    view.circle(p, 0.4, { width: 1 });
    view.text([p[0] + 1.6, p[1] - 0.2], 'VTR', { size: 10 });
  }
  caption(leaf, [600, 1220], ['1', 'Plumbing plan', '1/4 in. = 1 ft']);
  schedule(leaf, [420, 1360], {
    title: 'Fixtures',
    widths: [250, 120, 120, 120],
    rows: [
      ['Fixture', 'Waste', 'Cold', 'Hot'],
      ['Toilet', '3 in.', '1/2', ''],
      ['Basin', '1 1/2', '1/2', '1/2'],
      ['Tub, shower', '2 in.', '1/2', '1/2'],
      ['Kitchen sink', '2 in.', '1/2', '1/2'],
      ['Washer', '2 in.', '1/2', '1/2'],
    ],
    size: 11,
  });
  notes(leaf, [1120, 1340], {
    title: 'Plumbing notes',
    width: 720,
    words: [
      'Drains under the slab stay open and under test until the county has passed them.',
      `Sewage permit is for 3 bedrooms; these plans show ${revisions[revision].bedrooms}.`,
      'Well by a licensed driller under WP-25-0102. Test the water before anybody lives here.',
    ],
  });
  return leaf;
}

export function energySheet(book: Book, revision: Revision): Leaf {
  const leaf = openSheet(book, 'N1', revision);
  let y = schedule(leaf, [130, 150], {
    title: 'Windows',
    widths: [90, 260, 160, 130, 130, 330],
    size: 14,
    rows: [
      ['Mark', 'Size', 'Count', 'U', 'SHGC', 'Remarks'],
      ['A', '5\'-0" x 4\'-4"', '3', '0.29', '0.31', 'bedroom, opens wide enough'],
      ['B', '3\'-0" x 5\'-0"', '2', '0.29', '0.31', 'fixed'],
      ['C', '6\'-0" x 5\'-0"', '2', '0.29', '0.31', 'slider'],
      ['D', '2\'-0" x 2\'-6"', '3', '0.29', '0.31', 'tempered in baths'],
      ['E', '4\'-0" x 3\'-5"', '1', '0.29', '0.31', 'over sink'],
      ['F', '4\'-0" x 4\'-4"', '3', '0.29', '0.31', 'bedroom, opens wide enough'],
    ],
  });
  y = schedule(leaf, [130, y + 90], {
    title: 'Doors',
    widths: [90, 260, 160, 590],
    size: 14,
    rows: [
      ['Mark', 'Size', 'Count', 'Remarks'],
      ['1', '3\'-0" x 6\'-8"', '1', 'front, insulated, U 0.20'],
      ['2', '3\'-0" x 6\'-8"', '1', 'laundry, insulated, U 0.20'],
      ['3', '6\'-0" x 6\'-8"', '1', 'slider, tempered, U 0.29'],
      [
        '4',
        '2\'-8" x 6\'-8"',
        openStudy(revision) ? '4' : '5',
        openStudy(revision) ? 'inside; the study has none' : 'inside',
      ],
      ['5', '2\'-4" x 6\'-8"', '3', 'bath, linen'],
    ],
  });
  schedule(leaf, [130, y + 90], {
    title: 'Rooms',
    widths: [300, 260, 270, 270],
    size: 13,
    rows: [
      ['Room', 'Floor', 'Walls', 'Ceiling'],
      ...rooms(revision).map((r) => [
        r.name,
        /BATH|LAUNDRY/.test(r.name) ? 'tile' : 'wood',
        'wallboard, paint',
        'wallboard, 9\'-0"',
      ]),
    ],
  });
  const end = notes(leaf, [1420, 150], {
    title: 'Energy notes',
    size: 15,
    width: 780,
    words: [
      'Ceiling R-49, walls R-21, slab edge R-10 for 2 ft, ducts in attic R-8.',
      'Air leakage tested, not more than 3.00 changes an hour at 50 Pa. Ducts tested, not more than 4 cfm per 100 sq ft at 25 Pa.',
      'Bath fans to the outside; one runs without stop as the energy report says.',
      'Certificate posted at the panel before the final inspection.',
      `Energy report must be made from this revision (${revision}).`,
    ],
  });
  schedule(leaf, [1420, end + 70], {
    title: 'Envelope',
    widths: [300, 200, 200],
    size: 14,
    rows: [
      ['Part', 'Area, sq ft', 'Value'],
      ['Ceiling', '1,860', 'R-49'],
      ['Walls, net', '1,466', 'R-21'],
      ['Glass', '158', 'U 0.29'],
      ['Doors', '58', 'U 0.20'],
      ['Slab edge', '184 ft', 'R-10'],
    ],
  });
  return leaf;
}
