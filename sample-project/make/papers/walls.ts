import type { Chance } from '../kit/chance.ts';
import type { Colour, Point } from '../kit/ink.ts';
import type { Leaf } from '../kit/leaf.ts';

/** Open walls and trenches as they are photographed before they are covered: what runs where, with a tape beside it. */

type Scene = (leaf: Leaf, chance: Chance) => void;

const wood: Colour = [0.79, 0.66, 0.46];
const dark: Colour = [0.6, 0.48, 0.31];
const board: Colour = [0.72, 0.58, 0.4];
const yellow: Colour = [0.9, 0.78, 0.24];
const white: Colour = [0.92, 0.92, 0.9];
const copper: Colour = [0.74, 0.42, 0.26];
const steel: Colour = [0.62, 0.65, 0.68];

interface Bay {
  /** Where a cable comes down: stud bay by number, and the height of its box. */
  readonly boxes: readonly (readonly [bay: number, height: number])[];
  /** Supply (copper) and drain (white) pipes, by bay. */
  readonly supply?: readonly number[];
  readonly drain?: readonly number[];
  /** A duct along the top. */
  readonly duct?: boolean;
  /** An opening from one bay to another. */
  readonly window?: readonly [number, number];
  readonly panel?: number;
  readonly note: string;
}

const left = 26;
const pitch = 74;
const floor = 420;
const top = 58;

function grained(leaf: Leaf, at: Point, size: Point, look: { chance: Chance; fill: Colour }): void {
  leaf.box(at, size, { fill: look.fill, width: 0 });
  const along = size[0] > size[1];
  for (let i = 0; i < 5; i += 1) {
    const s = look.chance.between(-0.06, 0.04);
    const colour: Colour = [look.fill[0] + s, look.fill[1] + s, look.fill[2] + s];
    const off = look.chance.next();
    if (along)
      leaf.line([at[0], at[1] + size[1] * off], [at[0] + size[0], at[1] + size[1] * off], { width: 0.8, colour });
    else leaf.line([at[0] + size[0] * off, at[1]], [at[0] + size[0] * off, at[1] + size[1]], { width: 0.8, colour });
  }
}

function studs(leaf: Leaf, chance: Chance, look: Bay): void {
  grained(leaf, [0, 0], [640, 480], { chance, fill: board });
  for (let i = 0; i < 60; i += 1)
    leaf.line([0, i * 8], [640, i * 8 + chance.between(-3, 3)], { width: 0.6, colour: [0.66, 0.52, 0.35] });
  leaf.box([0, floor + 18], [640, 60], { fill: [0.66, 0.66, 0.65], width: 0 });
  grained(leaf, [0, top - 30], [640, 15], { chance, fill: wood });
  grained(leaf, [0, top - 14], [640, 15], { chance, fill: wood });
  grained(leaf, [0, floor + 4], [640, 15], { chance, fill: [0.55, 0.6, 0.42] });
  for (let i = 0; i < 9; i += 1) {
    const x = left + i * pitch;
    if (look.window !== undefined && i > look.window[0] && i < look.window[1]) continue;
    leaf.box([x + 14, top], [6, floor - top + 4], { fill: dark, width: 0 });
    grained(leaf, [x, top], [15, floor - top + 4], { chance, fill: wood });
  }
}

function opening(leaf: Leaf, chance: Chance, [from, to]: readonly [number, number]): void {
  const [x, w] = [left + from * pitch + 15, (to - from) * pitch - 15];
  leaf.box([x, top + 70], [w, 190], { fill: [0.78, 0.86, 0.92], width: 0 });
  leaf.box([x, top + 190], [w, 70], { fill: [0.5, 0.56, 0.42], width: 0 });
  for (let i = 0; i < 2; i += 1) grained(leaf, [x - 15, top + 2 + i * 32], [w + 30, 30], { chance, fill: wood });
  grained(leaf, [x - 15, top + 260], [w + 30, 14], { chance, fill: wood });
  for (let n = from + 1; n < to; n += 1)
    grained(leaf, [left + n * pitch, top + 274], [14, floor - top - 270], { chance, fill: wood });
}

const middle = (bay: number): number => left + bay * pitch + 44;

function cable(leaf: Leaf, chance: Chance, [bay, height]: readonly [number, number]): void {
  const x = left + bay * pitch + 17;
  const points: Point[] = [[x + 14, top - 10]];
  for (let y = top + 20; y < height - 10; y += 40) points.push([x + 12 + chance.between(-3, 3), y]);
  points.push([x + 13, height]);
  leaf.curve(points, { colour: yellow, width: 3.4 });
  for (let y = top + 50; y < height - 20; y += 90) leaf.box([x + 6, y], [12, 4], { fill: white, width: 0 });
  leaf.box([x, height], [26, 36], { fill: [0.2, 0.36, 0.62], width: 0 });
  leaf.box([x + 4, height + 4], [18, 28], { fill: [0.14, 0.25, 0.45], width: 0 });
}

function pipes(leaf: Leaf, look: Bay): void {
  for (const bay of look.supply ?? []) {
    for (const [off, colour] of [
      [0, copper],
      [16, [0.35, 0.45, 0.7]],
    ] as const)
      leaf.box([middle(bay) - 8 + off, top + 150], [6, floor - top - 140], { fill: colour, width: 0 });
    leaf.box([left + bay * pitch - 2, floor - 60], [19, 26], { fill: steel, width: 0 });
  }
  for (const bay of look.drain ?? []) {
    leaf.box([middle(bay) - 11, top - 30], [22, floor - top + 34], { fill: white, width: 0 });
    leaf.box([middle(bay) - 15, floor - 130], [30, 24], { fill: [0.84, 0.84, 0.82], width: 0 });
    leaf.text([middle(bay) + 5, floor - 40], '2 IN  TEST', {
      face: 'sansBold',
      size: 9,
      colour: [0.3, 0.3, 0.3],
      angle: 90,
    });
  }
}

const openWall =
  (look: Bay): Scene =>
  (leaf, chance) => {
    studs(leaf, chance, look);
    if (look.window !== undefined) opening(leaf, chance, look.window);
    pipes(leaf, look);
    for (const box of look.boxes) cable(leaf, chance, box);
    if (look.duct === true) {
      leaf.box([0, top + 14], [640, 46], { fill: steel, width: 0 });
      for (let x = 0; x < 640; x += 34)
        leaf.line([x, top + 14], [x + 5, top + 60], { width: 1.4, colour: [0.5, 0.53, 0.56] });
    }
    if (look.panel !== undefined) {
      leaf.box([left + look.panel * pitch + 16, 150], [57, 190], { fill: [0.5, 0.53, 0.56], width: 0 });
      leaf.text([middle(look.panel), 246], 'COVER ON', { face: 'sansBold', size: 8, align: 'centre', colour: white });
    }
    // A card with the place written on it stands in the picture, as people do it.
    leaf.box([212, floor + 14], [216, 46], { fill: [0.96, 0.95, 0.9], width: 0 });
    leaf.hand([222, floor + 46], look.note, { size: 17, colour: [0.12, 0.14, 0.2], width: 2, chance });
  };

const trench: Scene = (leaf, chance) => {
  leaf.box([0, 0], [640, 480], { fill: [0.56, 0.42, 0.29], width: 0 });
  for (let i = 0; i < 2400; i += 1) {
    const [x, y, s] = [chance.between(0, 640), chance.between(0, 480), chance.between(-0.09, 0.09)];
    leaf.box([x, y], [chance.between(2, 9), chance.between(1, 4)], { fill: [0.56 + s, 0.42 + s, 0.29 + s], width: 0 });
  }
  const walls: readonly Point[] = [
    [230, 60],
    [410, 60],
    [560, 480],
    [80, 480],
  ];
  leaf.path(walls, { fill: [0.36, 0.27, 0.19], width: 0, close: true });
  leaf.path(
    [
      [305, 62],
      [335, 62],
      [370, 480],
      [270, 480],
    ],
    { fill: white, width: 0, close: true },
  );
  for (let i = 0; i < 9; i += 1) {
    const y = 80 + i * i * 5;
    leaf.line([320 - 14 - i * 4, y], [320 + 14 + i * 4, y], { width: 1.6, colour: [0.7, 0.7, 0.68] });
  }
  leaf.box([420, 200], [14, 250], { fill: yellow, width: 0 });
  for (let i = 0; i < 16; i += 1)
    leaf.line([420, 208 + i * 15], [i % 4 === 0 ? 434 : 428, 208 + i * 15], { width: 1.2 });
  leaf.box([30, 400], [190, 46], { fill: [0.96, 0.95, 0.9], width: 0 });
  leaf.hand([40, 432], 'DRAIN 6-17 24 IN', { size: 15, colour: [0.12, 0.14, 0.2], width: 2, chance });
};

/** A bent pin in the grass with its cap and a ribbon. */
const pin: Scene = (leaf, chance) => {
  leaf.box([0, 0], [640, 480], { fill: [0.46, 0.45, 0.28], width: 0 });
  for (let i = 0; i < 3600; i += 1) {
    const [x, y, s] = [chance.between(0, 640), chance.between(0, 500), chance.between(-0.12, 0.12)];
    leaf.line([x, y], [x + chance.between(-9, 9), y - chance.between(8, 30)], {
      width: 1,
      colour: [0.48 + s, 0.47 + s, 0.28 + s * 0.6],
    });
  }
  leaf.box([312, 150], [16, 220], { fill: [0.42, 0.3, 0.22], width: 0 });
  leaf.circle([320, 148], 9, { width: 16, colour: [0.88, 0.55, 0.16] });
  leaf.text([320, 151], 'O&V', { face: 'sansBold', size: 8, align: 'centre' });
  leaf.curve(
    [
      [328, 190],
      [372, 176],
      [408, 214],
      [452, 196],
    ],
    { width: 11, colour: [0.9, 0.3, 0.42] },
  );
};

export const walls = {
  kitchenNorth: openWall({
    boxes: [
      [1, 236],
      [6, 236],
      [7, 236],
    ],
    supply: [3],
    drain: [4],
    window: [2, 5],
    note: 'KITCHEN N 9-4',
  }),
  bathEast: openWall({ boxes: [[6, 210]], supply: [1, 3], drain: [2, 5], note: 'BATH E 9-4' }),
  bedroomSouth: openWall({
    boxes: [
      [0, 318],
      [7, 318],
    ],
    window: [2, 6],
    note: 'BED 2 S 9-4',
  }),
  hallWest: openWall({
    boxes: [
      [2, 236],
      [5, 236],
    ],
    duct: true,
    note: 'HALL W 9-4',
  }),
  utilityEast: openWall({
    boxes: [
      [0, 200],
      [1, 236],
      [5, 318],
    ],
    supply: [6],
    panel: 3,
    note: 'UTILITY E 9-4',
  }),
  trench,
  pin,
} as const;
