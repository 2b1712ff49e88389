import { house, owners, place } from '../cast.ts';
import type { Book } from '../kit/book.ts';
import type { Point } from '../kit/ink.ts';
import { black, type Colour, grey } from '../kit/ink.ts';
import type { Leaf } from '../kit/leaf.ts';
import { type Revision, revisions } from './house.ts';

export const archD = [2592, 1728] as const;

export const sheetList = [
  ['G1', 'Title sheet, notes'],
  ['C1', 'Site plan'],
  ['A1', 'Floor plan'],
  ['A2', 'Elevations'],
  ['A3', 'Roof plan'],
  ['A4', 'Sections'],
  ['S1', 'Foundation plan'],
  ['S2', 'Roof framing plan'],
  ['S3', 'Structural details'],
  ['E1', 'Electrical plan'],
  ['P1', 'Plumbing plan'],
  ['N1', 'Energy notes, schedules'],
] as const;
export type SheetNumber = (typeof sheetList)[number][0];

/** The drawing room left of the title strip. */
export const field = { left: 110, top: 70, right: 2260, bottom: 1660 } as const;

/** One sheet with border and the title strip down its right side. */
export function openSheet(book: Book, number: SheetNumber, revision: Revision): Leaf {
  const leaf = book.leaf(archD);
  const [w, h] = archD;
  leaf.box([72, 36], [w - 108, h - 72], { width: 2.6 });
  const x = w - 310;
  leaf.line([x, 36], [x, h - 36], { width: 1.6 });
  leaf.text([x + 22, 92], 'OSTREY DRAFTING', { face: 'slabBold', size: 25 });
  leaf.text([x + 22, 116], 'House plans. Loft 3, Ropewalk Yard, Lower Brindle', {
    face: 'human',
    size: 10.5,
    colour: grey,
  });
  leaf.line([x, 140], [w - 36, 140], { width: 0.8 });
  placeholder(leaf, [x + 137, 300]);
  leaf.line([x, 450], [w - 36, 450], { width: 0.8 });
  lines(
    leaf,
    [x + 22, 478],
    [
      'A house for',
      owners.first,
      owners.second,
      '',
      place.house,
      place.lot,
      `Parcel ${place.parcel}`,
      'Brindlemoor County',
    ],
    15,
  );
  leaf.line([x, 652], [w - 36, 652], { width: 0.8 });
  lines(leaf, [x + 22, 682], planNotes, 12);
  revisionBlock(leaf, [x, 1130], revision);
  titleBlock(leaf, [x, 1400], { number, revision });
  return leaf;
}

const planNotes = [
  'Written sizes rule, do not measure the print.',
  'All work by the rules the county has in force.',
  'Check sizes on the site before cutting.',
  'Trusses, footings and bracing are for licensed',
  'people to size; this is a sample drawing and',
  'no house may be built from it.',
];

function lines(leaf: Leaf, at: Point, words: readonly string[], size: number): void {
  const bold = size > 13;
  words.forEach((line, i) => {
    leaf.text([at[0], at[1] + i * size * 1.38], line, { face: bold && i > 0 ? 'humanBold' : 'human', size });
  });
}

/** Where a professional's seal would stand: plain words, so that nobody could take it for one. */
function placeholder(leaf: Leaf, centre: Point): void {
  const colour: Colour = [0.5, 0.5, 0.52];
  leaf.box([centre[0] - 110, centre[1] - 120], [220, 240], { colour, width: 0.8, dash: [8, 5] });
  ['SEALED COPY ON FILE', 'DEMONSTRATION', 'no seal, no licence'].forEach((line, i) => {
    leaf.text([centre[0], centre[1] - 14 + i * 22], line, {
      face: 'humanBold',
      size: i === 2 ? 11 : 15,
      align: 'centre',
      colour,
    });
  });
}

function revisionBlock(leaf: Leaf, at: Point, revision: Revision): void {
  const [x, y] = at;
  leaf.line([x, y], [x + 274, y], { width: 0.8 });
  for (const [off, head] of [
    [12, 'Rev'],
    [44, 'Day'],
    [116, 'What'],
  ] as const)
    leaf.text([x + off, y + 18], head, { face: 'human', size: 9.5, colour: grey });
  const shown = (['A', 'B', 'C', 'D'] as const).filter((r) => r <= revision);
  shown.forEach((r, i) => {
    const row = y + 42 + i * 26;
    leaf.line([x, row - 18], [x + 274, row - 18], { width: 0.4 });
    leaf.text([x + 14, row], r, { face: 'humanBold', size: 13 });
    leaf.text([x + 44, row], revisions[r].day, { face: 'code', size: 10 });
    leaf.text([x + 116, row], revisions[r].words, { face: 'human', size: 9 });
  });
}

function titleBlock(leaf: Leaf, at: Point, look: { number: SheetNumber; revision: Revision }): void {
  const [x, y] = at;
  const place_ = sheetList.findIndex(([n]) => n === look.number);
  leaf.line([x, y], [x + 274, y], { width: 0.8 });
  leaf.text([x + 22, y + 34], sheetList[place_]?.[1] ?? '', { face: 'slabBold', size: 20 });
  leaf.text([x + 22, y + 62], `Drawn TO   Checked PM   ${house.heated.toLocaleString('en-US')} sq ft heated`, {
    face: 'human',
    size: 10,
    colour: grey,
  });
  leaf.line([x, y + 84], [x + 274, y + 84], { width: 0.8 });
  leaf.text([x + 22, y + 104], 'Sheet', { face: 'human', size: 10, colour: grey });
  leaf.text([x + 22, y + 214], look.number, { face: 'slabBold', size: 104 });
  leaf.text([x + 22, y + 258], `${place_ + 1} of ${sheetList.length}`, { face: 'human', size: 14 });
  leaf.text([x + 252, y + 258], `REVISION ${look.revision}`, { face: 'humanBold', size: 18, align: 'right' });
  leaf.text([x + 252, y + 238], revisions[look.revision].day, { face: 'code', size: 12, align: 'right' });
}

/** A drawing's title under it: number in a ring, name, scale. */
export function caption(leaf: Leaf, at: Point, words: readonly [string, string, string]): void {
  const [x, y] = at;
  const [number, name, scale] = words;
  leaf.circle([x + 18, y], 18, { width: 1.4 });
  leaf.text([x + 18, y + 7], number, { face: 'humanBold', size: 19, align: 'centre' });
  leaf.text([x + 48, y - 3], name.toUpperCase(), { face: 'slabBold', size: 18 });
  const width = Math.max(leaf.widthOf(name.toUpperCase(), 'slabBold', 18), 180);
  leaf.line([x + 42, y + 3], [x + 56 + width, y + 3], { width: 1.6 });
  leaf.text([x + 48, y + 18], `Scale ${scale}`, { face: 'human', size: 11.5 });
}

export function north(leaf: Leaf, at: Point, angle = 0): void {
  const turn = (x: number, y: number): Point => {
    const a = (angle * Math.PI) / 180;
    return [at[0] + x * Math.cos(a) - y * Math.sin(a), at[1] + x * Math.sin(a) + y * Math.cos(a)];
  };
  leaf.circle(at, 30, { width: 1 });
  leaf.path([turn(0, -42), turn(10, 20), turn(0, 10)], { fill: black, width: 0.5, close: true });
  leaf.path([turn(0, -42), turn(-10, 20), turn(0, 10)], { width: 0.8, close: true });
  leaf.text(turn(0, -48), 'N', { face: 'slabBold', size: 20, align: 'centre' });
}

/** A ruled schedule. Column widths in points. */
export function schedule(
  leaf: Leaf,
  at: Point,
  look: { title: string; widths: readonly number[]; rows: readonly (readonly string[])[]; size?: number },
): number {
  const size = look.size ?? 14;
  const row = size * 1.95;
  const total = look.widths.reduce((a, b) => a + b, 0);
  let [, y] = at;
  leaf.text([at[0], y - 8], look.title.toUpperCase(), { face: 'slabBold', size: size + 3 });
  look.rows.forEach((cells, r) => {
    leaf.line([at[0], y], [at[0] + total, y], { width: r < 2 ? 1.2 : 0.35 });
    let x = at[0];
    cells.forEach((cell, c) => {
      leaf.text([x + 6, y + row * 0.68], cell, { face: r === 0 ? 'humanBold' : 'human', size });
      x += look.widths[c] ?? 60;
    });
    y += row;
  });
  leaf.line([at[0], y], [at[0] + total, y], { width: 1.2 });
  let x = at[0];
  for (const w of [0, ...look.widths]) {
    x += w;
    leaf.line([x, at[1]], [x, y], { width: 0.35 });
  }
  return y;
}

/** Running notes in a column. */
export function notes(
  leaf: Leaf,
  at: Point,
  look: { title: string; words: readonly string[]; size?: number; width?: number },
): number {
  const size = look.size ?? 16;
  let y = at[1];
  leaf.text([at[0], y], look.title.toUpperCase(), { face: 'slabBold', size: size + 4 });
  y += size * 1.9;
  look.words.forEach((text, i) => {
    const head = `${i + 1}.`;
    leaf.text([at[0], y], head, { face: 'human', size });
    let line = '';
    for (const word of `${text} `.split(' ')) {
      const longer = line === '' ? word : `${line} ${word}`;
      if (word === '' || leaf.widthOf(longer, 'human', size) > (look.width ?? 560) - 30) {
        leaf.text([at[0] + 30, y], line, { face: 'human', size });
        y += size * 1.32;
        line = word;
      } else line = longer;
    }
    y += size * 0.35;
  });
  return y;
}
