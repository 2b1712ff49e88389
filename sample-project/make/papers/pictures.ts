import sharp from 'sharp';
import { Book } from '../kit/book.ts';
import { Chance } from '../kit/chance.ts';
import type { Colour, Point } from '../kit/ink.ts';
import type { Leaf } from '../kit/leaf.ts';
import { develop } from '../kit/photo.ts';
import { clamp, drawPages } from '../kit/picture.ts';
import { walls } from './walls.ts';

export type Scene = (leaf: Leaf, chance: Chance) => void;

const sky = (leaf: Leaf, low: Colour, high: Colour): void => {
  for (let i = 0; i < 60; i += 1) {
    const t = i / 60;
    const mix: Colour = [
      high[0] + (low[0] - high[0]) * t,
      high[1] + (low[1] - high[1]) * t,
      high[2] + (low[2] - high[2]) * t,
    ];
    leaf.box([0, i * 5.5], [640, 6], { fill: mix, width: 0 });
  }
};

const hill = (leaf: Leaf, base: number, look: { height: number; colour: Colour; chance: Chance }): void => {
  const phase = look.chance.between(0, 6);
  const points: Point[] = [[0, 480]];
  for (let x = 0; x <= 640; x += 8)
    points.push([x, base - look.height * (0.5 + 0.3 * Math.sin(x / 90 + phase) + 0.12 * Math.sin(x / 23 + phase * 2))]);
  points.push([640, 480]);
  leaf.path(points, { fill: look.colour, width: 0, close: true });
};

const tree = (leaf: Leaf, at: Point, size: number, chance: Chance): void => {
  leaf.path(
    [
      [at[0] - size * 0.04, at[1]],
      [at[0] + size * 0.04, at[1]],
      [at[0] + size * 0.02, at[1] - size * 0.7],
      [at[0] - size * 0.02, at[1] - size * 0.7],
    ],
    { fill: [0.3, 0.23, 0.17], width: 0, close: true },
  );
  for (let i = 0; i < 46; i += 1) {
    const a = chance.between(0, 6.28);
    const r = size * 0.3 * Math.sqrt(chance.next());
    const [x, y] = [at[0] + Math.cos(a) * r, at[1] - size * 0.72 + Math.sin(a) * r * 1.1];
    const shade = chance.between(-0.05, 0.07) - (y - at[1] + size * 0.72) / size / 6;
    const s = size * chance.between(0.05, 0.1);
    blob(leaf, [x, y], s, [0.24 + shade, 0.33 + shade, 0.18 + shade * 0.7]);
  }
};

const blob = (leaf: Leaf, at: Point, r: number, fill: Colour): void => {
  const points = Array.from(
    { length: 9 },
    (_, i): Point => [
      at[0] + Math.cos((i * 6.283) / 9) * r * (1 + 0.2 * Math.sin(i * 5)),
      at[1] + Math.sin((i * 6.283) / 9) * r,
    ],
  );
  leaf.path(points, { fill, width: 0, close: true });
};

const grass = (leaf: Leaf, top: number, look: { chance: Chance; base: Colour }): void => {
  leaf.box([0, top], [640, 480 - top], { fill: look.base, width: 0 });
  for (let i = 0; i < 2600; i += 1) {
    const y = top + (480 - top) * Math.sqrt(look.chance.next());
    const x = look.chance.between(0, 640);
    const s = look.chance.between(-0.07, 0.08);
    const tall = 2 + ((y - top) / (480 - top)) * 8;
    leaf.line([x, y], [x + look.chance.between(-2, 2), y - tall], {
      width: 0.7,
      colour: [look.base[0] + s, look.base[1] + s, look.base[2] + s * 0.6],
    });
  }
};

const paint = {
  wall: [0.66, 0.7, 0.68],
  shade: [0.55, 0.59, 0.58],
  roof: [0.27, 0.28, 0.3],
  trim: [0.93, 0.92, 0.88],
  glass: [0.3, 0.38, 0.45],
  stone: [0.58, 0.56, 0.52],
} as const;

const pane = (leaf: Leaf, at: Point, size: Point): void => {
  leaf.box([at[0] - 3, at[1] - 3], [size[0] + 6, size[1] + 6], { fill: paint.trim, width: 0 });
  leaf.box(at, size, { fill: paint.glass, width: 0 });
  leaf.path(
    [
      [at[0], at[1]],
      [at[0] + size[0] * 0.6, at[1]],
      [at[0], at[1] + size[1] * 0.7],
    ],
    { fill: [0.5, 0.58, 0.64], width: 0, close: true },
  );
  leaf.line([at[0] + size[0] / 2, at[1]], [at[0] + size[0] / 2, at[1] + size[1]], { width: 1.6, colour: paint.trim });
  leaf.line([at[0], at[1] + size[1] / 2], [at[0] + size[0], at[1] + size[1] / 2], { width: 1.6, colour: paint.trim });
};

const lap = (leaf: Leaf, at: Point, size: Point, look: { colour: Colour }): void => {
  leaf.box(at, size, { fill: look.colour, width: 0 });
  for (let y = at[1] + 5; y < at[1] + size[1]; y += 5)
    leaf.line([at[0], y], [at[0] + size[0], y], {
      width: 0.7,
      colour: [look.colour[0] - 0.09, look.colour[1] - 0.09, look.colour[2] - 0.09],
    });
};

const shingles = (leaf: Leaf, corners: readonly [Point, Point, Point, Point], chance: Chance): void => {
  leaf.path(corners, { fill: paint.roof, width: 0, close: true });
  const [a, b, c, d] = corners;
  for (let t = 0.06; t < 1; t += 0.06) {
    const left: Point = [d[0] + (a[0] - d[0]) * t, d[1] + (a[1] - d[1]) * t];
    const right: Point = [c[0] + (b[0] - c[0]) * t, c[1] + (b[1] - c[1]) * t];
    const s = chance.between(0.02, 0.06);
    leaf.line(left, right, { width: 1.1, colour: [0.27 + s, 0.28 + s, 0.3 + s] });
  }
};

const front: Scene = (leaf, chance) => {
  backdrop(leaf, chance);
  lap(leaf, [90, 232], [460, 92], { colour: paint.wall });
  shingles(
    leaf,
    [
      [112, 158],
      [528, 158],
      [566, 236],
      [74, 236],
    ],
    chance,
  );
  for (const x of [116, 182, 264, 352, 406, 474]) pane(leaf, [x, 252], [x > 340 && x < 400 ? 40 : 30, 40]);
  leaf.box([314, 248], [24, 76], { fill: [0.46, 0.2, 0.17], width: 0 });
  shingles(
    leaf,
    [
      [270, 200],
      [436, 200],
      [452, 240],
      [254, 240],
    ],
    chance,
  );
  for (const x of [258, 316, 380, 444]) leaf.box([x, 240], [6, 90], { fill: paint.trim, width: 0 });
  leaf.box([250, 326], [208, 7], { fill: paint.stone, width: 0 });
  leaf.text([262, 262], '418', { face: 'sansBold', size: 8, colour: [0.1, 0.1, 0.1], angle: 90 });
  leaf.path(
    [
      [312, 334],
      [342, 334],
      [420, 480],
      [230, 480],
    ],
    { fill: [0.62, 0.6, 0.56], width: 0, close: true },
  );
};

const rear: Scene = (leaf, chance) => {
  backdrop(leaf, chance);
  lap(leaf, [80, 236], [480, 90], { colour: paint.shade });
  shingles(
    leaf,
    [
      [104, 162],
      [536, 162],
      [574, 240],
      [66, 240],
    ],
    chance,
  );
  for (const x of [120, 250, 360, 470]) pane(leaf, [x, 256], [34, 38]);
  leaf.box([300, 250], [44, 76], { fill: paint.glass, width: 0 });
  leaf.line([322, 250], [322, 326], { width: 3, colour: paint.trim });
  leaf.box([286, 326], [76, 8], { fill: paint.stone, width: 0 });
  leaf.box([520, 290], [26, 34], { fill: [0.75, 0.76, 0.77], width: 0 });
  for (let i = 0; i < 5; i += 1)
    leaf.line([522, 296 + i * 5], [544, 296 + i * 5], { width: 0.8, colour: [0.5, 0.5, 0.5] });
};

const side =
  (meter: boolean): Scene =>
  (leaf, chance) => {
    backdrop(leaf, chance);
    lap(leaf, [190, 226], [270, 110], { colour: meter ? paint.wall : paint.shade });
    leaf.path(
      [
        [190, 228],
        [325, 148],
        [460, 228],
      ],
      { fill: meter ? paint.wall : paint.shade, width: 0, close: true },
    );
    leaf.path(
      [
        [168, 240],
        [325, 144],
        [482, 240],
        [482, 230],
        [325, 134],
        [168, 230],
      ],
      { fill: paint.roof, width: 0, close: true },
    );
    leaf.box([312, 178], [26, 24], { fill: paint.trim, width: 0 });
    for (let i = 0; i < 5; i += 1)
      leaf.line([314, 182 + i * 4.5], [336, 182 + i * 4.5], { width: 1, colour: [0.6, 0.6, 0.6] });
    for (const x of [216, 300, 390]) pane(leaf, [x, 256], [30, 38]);
    if (meter) {
      leaf.box([446, 268], [10, 16], { fill: [0.5, 0.52, 0.54], width: 0 });
      leaf.line([451, 284], [451, 338], { width: 3, colour: [0.5, 0.52, 0.54] });
    }
  };

const backdrop: Scene = (leaf, chance) => {
  sky(leaf, [0.86, 0.89, 0.9], [0.55, 0.67, 0.8]);
  hill(leaf, 250, { height: 70, colour: [0.55, 0.6, 0.6], chance });
  hill(leaf, 270, { height: 50, colour: [0.42, 0.47, 0.4], chance });
  for (let i = 0; i < 12; i += 1)
    tree(leaf, [chance.between(0, 640), chance.between(280, 300)], chance.between(50, 120), chance);
  grass(leaf, 300, { chance, base: [0.5, 0.5, 0.32] });
};

const bareLot: Scene = (leaf, chance) => {
  sky(leaf, [0.88, 0.88, 0.86], [0.66, 0.72, 0.78]);
  hill(leaf, 240, { height: 80, colour: [0.5, 0.55, 0.55], chance });
  for (let i = 0; i < 26; i += 1)
    tree(leaf, [i * 26 + chance.between(-8, 8), chance.between(262, 285)], chance.between(70, 130), chance);
  grass(leaf, 280, { chance, base: [0.55, 0.52, 0.36] });
  for (const [x, y, s] of [
    [150, 350, 1],
    [330, 330, 0.8],
    [520, 380, 1.3],
  ] as const) {
    leaf.box([x, y - 40 * s], [3 * s, 40 * s], { fill: [0.8, 0.7, 0.5], width: 0 });
    leaf.path(
      [
        [x, y - 40 * s],
        [x + 18 * s, y - 36 * s],
        [x + 14 * s, y - 30 * s],
        [x + 1, y - 32 * s],
      ],
      { fill: [0.9, 0.35, 0.2], width: 0, close: true },
    );
  }
};

const scenes = { front, rear, south: side(true), north: side(false), bareLot, ...walls } as const;
export type SceneName = keyof typeof scenes;

/** A drawn scene put through a lens: grain, softness, a darker rim. */
export async function picture(
  name: SceneName,
  look: { taken: string; orientation: 1 | 6; width: number },
): Promise<Buffer> {
  const book = await Book.open({ title: name, day: '2027-02-20', faces: ['sansBold'] });
  const chance = new Chance(name);
  scenes[name](book.leaf([640, 480]), chance);
  const [page] = await drawPages(await book.bytes(), (72 * look.width) / 640);
  if (page === undefined) throw new Error('The scene drew no page.');
  const { data, width, height } = page;
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const rim = 1 - 0.34 * ((x / width - 0.5) ** 2 + (y / height - 0.5) ** 2);
      const grain = chance.bell() * 5;
      for (let c = 0; c < 3; c += 1) {
        const i = (y * width + x) * 4 + c;
        data[i] = clamp((data[i] ?? 0) * rim + grain);
      }
    }
  }
  return develop(page, { ...look, quality: 70 });
}

/** Lays a small card on a sheet of paper-white so that it can be photographed. */
export async function enlarge(
  pdf: Uint8Array,
  dpi: number,
): Promise<{ data: Uint8Array; width: number; height: number; channels: 4 }> {
  const [page] = await drawPages(pdf, dpi);
  if (page === undefined) throw new Error('There is no page to photograph.');
  const data = await sharp(page.data, { raw: { width: page.width, height: page.height, channels: 4 } })
    .ensureAlpha()
    .raw()
    .toBuffer();
  return { data: new Uint8Array(data), width: page.width, height: page.height, channels: 4 };
}
