import type { Book } from '../kit/book.ts';
import type { Point } from '../kit/ink.ts';
import { grey, pale } from '../kit/ink.ts';
import type { Leaf } from '../kit/leaf.ts';
import { View } from '../kit/view.ts';
import type { Revision } from './house.ts';
import { areaAcres, call, corners, onLot } from './parcel.ts';
import { caption, north, notes, openSheet, schedule } from './sheet-frame.ts';

/** The lot with its lines, calls and corners, for plan set and survey alike. */
export function drawLot(view: View, text: number): void {
  view.path(corners, { width: 2, close: true, dash: [26, 5, 5, 5] });
  corners.forEach((corner, i) => {
    const next = corners[(i + 1) % corners.length] ?? corner;
    const { bearing, length } = call(corner, next);
    const angle = (Math.atan2(next[1] - corner[1], next[0] - corner[0]) * 180) / Math.PI;
    const upright = angle > 90 || angle < -89 ? angle + 180 : angle;
    const along = [0.34, 0.74, 0.3, 0.26][i] ?? 0.5;
    const [x, y] = view.at([corner[0] + (next[0] - corner[0]) * along, corner[1] + (next[1] - corner[1]) * along]);
    const a = (upright * Math.PI) / 180;
    // West and north lines carry their call below the line, east and south above it: always inside the lot.
    const up = (i < 2 ? -1.25 : 0.5) * text;
    view.leaf.text([x - Math.sin(a) * up, y - Math.cos(a) * up], `${bearing}   ${length}`, {
      face: 'human',
      size: text,
      align: 'centre',
      angle: upright,
    });
    view.circle(corner, 5 / view.scale, { width: 1.4 });
  });
  lane(view, text);
}

function lane(view: View, text: number): void {
  const far = (p: Point, t: number): Point => [p[0] - 50 + t * 0, p[1]];
  const [sw, nw] = [corners[0], corners[1]];
  const south: Point = [sw[0] - 1.6, sw[1] - 28];
  const northEnd: Point = [nw[0] + 1.6, nw[1] + 28];
  view.line(south, northEnd, { width: 1 });
  view.line(far(south, 0), far(northEnd, 0), { width: 1 });
  for (const off of [-16, -34])
    view.line([south[0] + off, south[1]], [northEnd[0] + off, northEnd[1]], { width: 0.6, colour: grey });
  view.line([south[0] - 25, south[1]], [northEnd[0] - 25, northEnd[1]], { width: 0.5, dash: [18, 8], colour: grey });
  const [x, y] = view.at([-15, 150]);
  view.leaf.text([x, y], 'HERON LANE   (county road 118, 50 ft)', {
    face: 'slab',
    size: text * 1.3,
    align: 'centre',
    angle: 86.75,
  });
}

/** House, porch, drive, well, septic areas with distances. */
export function drawImprovements(view: View, text: number): void {
  const { house, porch, well, tank, primary, repair, driveAt } = onLot;
  view.box(house.at, house.size, { width: 2, fill: [0.93, 0.93, 0.91] });
  view.hatch(house.at, house.size, 5, { colour: pale });
  view.box(porch.at, porch.size, { width: 1 });
  view.text([167, 224], 'HOUSE', { face: 'slabBold', size: text * 1.2 });
  view.text([167, 212], 'floor 212.50', { size: text });
  view.path(
    [
      [driveAt[0], driveAt[1] + 12],
      [40, driveAt[1] + 7],
      [112, driveAt[1] + 7],
      [122, 240],
      [143, 240],
      [143, 206],
      [122, 206],
      [112, driveAt[1] - 7],
      [40, driveAt[1] - 7],
      [driveAt[0] - 1.4, driveAt[1] - 12],
    ],
    { width: 1, colour: grey },
  );
  view.text([76, 219.5], 'DRIVE 14 ft, stone', { size: text });
  view.circle(well, 3, { width: 1.6 });
  view.circle(well, 100, { width: 0.5, dash: [10, 6], colour: grey });
  view.text([well[0], well[1] + 8], 'WELL', { face: 'humanBold', size: text });
  view.text([well[0] + 2, well[1] + 88], '100 ft round the well, no sewage', { size: text * 0.8, colour: grey });
  view.box([tank[0] - 3, tank[1] - 5], [6, 10], { width: 1.2 });
  view.text([tank[0] + 17, tank[1] - 1], 'TANK', { size: text });
  for (let i = 0; i < 5; i += 1) view.box([primary.at[0], primary.at[1] + 3 + i * 9], [50, 3], { width: 1 });
  view.path(
    [tank, [tank[0], 110], [204, 110]].map((p): Point => [p[0] ?? 0, p[1] ?? 0]),
    { width: 0.8, dash: [7, 4] },
  );
  view.box(repair.at, repair.size, { width: 0.8, dash: [9, 6] });
  view.text([230, 136], 'SEPTIC, primary: 5 trenches 50 ft', { size: text });
  view.text([230, 51], 'REPAIR AREA, keep free', { size: text });
  view.dim([18, 262], [144, 262], 6, { size: text, words: '132 ft' });
  view.dim([182, 228], [314, 228], 4, { size: text, words: '131 ft' });
  view.dim([167, 252], [167, 441.8], 6, { size: text, words: '190 ft' });
  view.dim([167, -5.6], [167, 190], 6, { size: text, words: '195 ft' });
  view.dim([235, 131], [225, 292], 22, { size: text, words: '162 ft' });
  view.dim([182, 252], [225, 295], -4, { size: text * 0.9, words: '61 ft' });
}

export function sitePlan(book: Book, revision: Revision): Leaf {
  const leaf = openSheet(book, 'C1', revision);
  const view = new View(leaf, [300, 1555], 3);
  contours(view);
  drawLot(view, 13);
  drawImprovements(view, 12);
  view.line([-2, 204], [148, 232], { width: 0.7, dash: [14, 4, 3, 4], colour: [0.4, 0.3, 0.1] });
  view.text([95, 238], 'power, underground', { size: 10, colour: [0.4, 0.3, 0.1] });
  north(leaf, [1420, 200]);
  caption(leaf, [300, 1620], ['1', 'Site plan', '1 in. = 24 ft (print at 24 x 36)']);
  const y = notes(leaf, [1480, 220], {
    title: 'Site notes',
    width: 720,
    words: [
      'Lot lines and corners from the survey of Orrick & Vane, dated 2024-05-06, with the house staked 2025-09-08.',
      `Lot 7 holds ${areaAcres.toFixed(2)} acres. Covered by building: 1.9 %.`,
      'Sewage: permit EH-24-0317, three bedrooms, 450 gallons a day. Keep trucks and piles off both septic areas; fence them before clearing.',
      'Well: permit WP-25-0102. No sewage within 100 feet.',
      'Drive: from Heron Lane at station 4+18. County road permit before work in the road margin.',
      'Call for utility locates before any digging. Marks fade.',
      'Silt fence below the house before clearing; stone the first 50 feet of the drive.',
      'Heights in feet, NAVD 88. Finished floor 212.50. Ground falls 4 % to the east: drain away from the house 6 inches in 10 feet.',
      'Flood: the county letter of 2026-02-11 places the building site in zone X. Nothing on this sheet determines a flood zone.',
    ],
  });
  schedule(leaf, [1480, y + 60], {
    title: 'Yards and distances',
    widths: [330, 180, 180],
    rows: [
      ['From - to', 'At least', 'Drawn'],
      ['House - Heron Lane', '40 ft', '132 ft'],
      ['House - north line', '20 ft', '190 ft'],
      ['House - south line', '20 ft', '195 ft'],
      ['House - east line', '30 ft', '131 ft'],
      ['Well - trenches', '100 ft', '162 ft'],
      ['Well - tank', '50 ft', '121 ft'],
      ['Well - house', '25 ft', '61 ft'],
      ['Trenches - house', '10 ft', '57 ft'],
      ['Trenches - lot line', '10 ft', '52 ft'],
    ],
  });
  return leaf;
}

function contours(view: View): void {
  for (let i = 0; i < 7; i += 1) {
    const x = 40 + i * 42;
    const points = Array.from(
      { length: 14 },
      (_, k): Point => view.at([x + Math.sin(k * 0.8 + i) * 9 + k * 2, -4 + k * 33]),
    );
    view.leaf.curve(points, { width: 0.5, colour: [0.62, 0.5, 0.36], dash: i % 2 === 0 ? [] : [12, 6] });
    view.leaf.text(points[1] ?? [0, 0], String(216 - i), { face: 'human', size: 9, colour: [0.5, 0.38, 0.22] });
  }
}
