import { PDFName, PDFString } from 'pdf-lib';
import { house } from '../cast.ts';
import type { Book } from '../kit/book.ts';
import { black, grey, pale, red } from '../kit/ink.ts';
import type { Leaf } from '../kit/leaf.ts';
import { feet, View } from '../kit/view.ts';
import { drawFittings, drawWalls, openStudy, type Revision, revisions, rooms, windows } from './house.ts';
import { caption, north, notes, openSheet, schedule } from './sheet-frame.ts';

const quarter = 18;

export function floorPlan(book: Book, revision: Revision): Leaf {
  const leaf = openSheet(book, 'A1', revision);
  const view = new View(leaf, [600, 880], quarter);
  drawWalls(view, revision, black);
  drawFittings(view, grey);
  for (const room of rooms(revision)) {
    const w = Math.abs(room.to[0] - room.from[0]);
    const d = Math.abs(room.to[1] - room.from[1]);
    const small = w < 8 || d < 5;
    view.text(room.at, room.name, { face: 'slabBold', size: small ? 8.5 : 13 });
    if (!small)
      view.text([room.at[0], room.at[1] - 1], `${feet(w - 0.3)} x ${feet(d - 0.3)}`, { size: 9.5, colour: grey });
  }
  view.text([35, -4], 'PORCH', { face: 'slabBold', size: 13 });
  if (openStudy(revision))
    view.note('5\'-0" cased opening, no door, no closet', [10.5, -13.4], [17.4, 13.4], { size: 10 });
  for (const win of windows) mark(view, win);
  dimensions(view);
  if (revision === 'B') reviewerLayer(book, leaf, view);
  north(leaf, [2140, 200], -90);
  caption(leaf, [600, 1260], ['1', 'Floor plan', '1/4 in. = 1 ft']);
  schedule(leaf, [110, 1400], {
    title: 'Areas',
    widths: [250, 150],
    rows: [
      ['Part', 'sq ft'],
      ['Heated', house.heated.toLocaleString('en-US')],
      ['Porch', '176'],
      ['Bedrooms', String(revisions[revision].bedrooms)],
    ],
  });
  notes(leaf, [620, 1400], {
    title: 'Floor plan notes',
    width: 760,
    words: [
      'Sizes run to the face of studs. Outside walls 2x6 at 16 in., inside 2x4 at 16 in.; wet walls 2x6.',
      'Bedroom windows open to the outside, sill not over 44 in. above the floor.',
      'Smoke alarms in each bedroom and in the hall, carbon monoxide alarm in the hall, all joined.',
      `Reviewer's count of bedrooms: ${revisions[revision].bedrooms}.`,
    ],
  });
  notes(leaf, [1440, 1400], {
    title: 'Revision',
    width: 760,
    words: changed[revision],
  });
  return leaf;
}

const first = [
  'Ceilings 9 ft throughout. Attic hatch 22 x 30 in. in the linen room.',
  'Tub, shower and door glass tempered.',
];

/** What the sheet says of its own changes. */
const changed: Readonly<Record<Revision, readonly string[]>> = {
  A: first,
  B: first,
  C: [
    'Bedroom 4 is now an open study: the door, the closet and its wall are gone, the opening to the hall is 5 ft wide with no door.',
    'Nothing else on this sheet is changed from revision B.',
  ],
  D: [
    'The duct runs in a chase along the hall; no truss is cut for it. Ceiling of the hall 8 ft below the chase.',
    'Bedroom 2: header as on S2 of this revision. Rooms and openings are as in revision C.',
  ],
};

function mark(view: View, win: (typeof windows)[number]): void {
  const out =
    win.wall === 'x' ? ([0, win.at[1] < 1 ? -1.6 : 1.6] as const) : ([win.at[0] < 1 ? -1.6 : 1.6, 0] as const);
  const at = [win.at[0] + out[0], win.at[1] + out[1]] as const;
  view.circle(at, 0.6, { width: 0.6 });
  const [x, y] = view.at(at);
  view.leaf.text([x, y + 4], win.mark, { face: 'humanBold', size: 10, align: 'centre' });
}

function dimensions(view: View): void {
  view.dim([0, 30], [62, 30], 6.5, { size: 12 });
  for (const [a, b] of [
    [0, 13],
    [13, 22],
    [22, 36],
    [36, 46],
    [46, 55],
    [55, 62],
  ] as const)
    view.dim([a, 30], [b, 30], 4);
  view.dim([62, 30], [62, 0], 6.5, { size: 12 });
  for (const [a, b] of [
    [30, 24],
    [24, 15.5],
    [15.5, 0],
  ] as const)
    view.dim([62, a], [62, b], 4);
  view.dim([0, 0], [0, 30], 6.5, { size: 12 });
  for (const [a, b] of [
    [0, 13.5],
    [13.5, 17],
    [17, 30],
  ] as const)
    view.dim([0, a], [0, b], 4);
  for (const [a, b] of [
    [0, 13],
    [13, 22],
    [22, 24],
    [24, 46],
    [46, 62],
  ] as const)
    view.dim([b, 0], [a, 0], 10);
  view.dim([62, 0], [0, 0], 12.5, { size: 12 });
}

/** Notes on a layer that its author hid (optional content, off by default; ISO 32000-1, 8.11). */
function reviewerLayer(book: Book, leaf: Leaf, view: View): void {
  const { context } = book.doc;
  const group = context.register(context.obj({ Type: 'OCG', Name: PDFString.of("Reviewer's notes (hidden)") }));
  const resources = leaf.page.node.Resources();
  resources?.set(PDFName.of('Properties'), context.obj({ Notes: group }));
  book.catalogue(
    'OCProperties',
    context.obj({ OCGs: [group], D: { Order: [group], ON: [], OFF: [group], BaseState: 'ON' } }),
  );
  leaf.ink.group(() => {
    leaf.ink.raw('/OC /Notes BDC');
    view.circle([17.5, 6], 5.2, { colour: red, width: 3 });
    view.text([17.5, 2.2], 'counts as 4th bedroom?', { face: 'humanBold', size: 16, colour: red });
    view.text([30, 32], 'DRAFT COMMENTS, NOT FOR ISSUE', { face: 'humanBold', size: 30, colour: red });
    leaf.ink.raw('EMC');
  });
}

/** The pale floor plan that other trades draw on. */
export function ground(leaf: Leaf, revision: Revision, scale = quarter): View {
  const view = new View(leaf, [600, 880], scale);
  drawWalls(view, revision, pale);
  drawFittings(view, pale);
  for (const room of rooms(revision)) view.text(room.at, room.name, { size: 9, colour: grey });
  return view;
}
