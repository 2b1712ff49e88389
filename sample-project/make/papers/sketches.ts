import { Book } from '../kit/book.ts';
import { Chance } from '../kit/chance.ts';
import type { Point } from '../kit/ink.ts';
import type { Leaf } from '../kit/leaf.ts';
import { scan } from '../kit/picture.ts';
import { corners, onLot } from '../plans/parcel.ts';

const pen = [0.12, 0.16, 0.45] as const;

/** A pen on squared paper: the lot in feet, drawn by an unsteady hand. */
class Sketch {
  readonly #leaf: Leaf;
  readonly #chance: Chance;

  constructor(leaf: Leaf, seed: string) {
    this.#leaf = leaf;
    this.#chance = new Chance(seed);
    for (let y = 110; y <= 722; y += 18) leaf.line([54, y], [558, y], { width: 0.2, colour: [0.72, 0.79, 0.85] });
    for (let x = 54; x <= 558; x += 18) leaf.line([x, 110], [x, 722], { width: 0.2, colour: [0.72, 0.79, 0.85] });
  }

  at([x, y]: readonly [number, number]): Point {
    return [118 + x * 1.24, 700 - y * 1.24];
  }

  stroke(points: readonly (readonly [number, number])[], width = 1.1): void {
    const shaky = points.flatMap((point, i): Point[] => {
      const [x, y] = this.at(point);
      const [nx, ny] = this.at(points[i + 1] ?? point);
      const steps = Math.max(1, Math.round(Math.hypot(nx - x, ny - y) / 26));
      return Array.from(
        { length: steps },
        (_, k): Point => [
          x + ((nx - x) * k) / steps + this.#chance.bell() * 0.8,
          y + ((ny - y) * k) / steps + this.#chance.bell() * 0.8,
        ],
      );
    });
    this.#leaf.curve(shaky, { colour: pen, width });
  }

  box([x, y]: readonly [number, number], [w, h]: readonly [number, number]): void {
    this.stroke([
      [x, y],
      [x + w, y],
      [x + w, y + h],
      [x, y + h],
      [x, y],
      [x + 4, y],
    ]);
  }

  words(at: readonly [number, number], text: string, size = 10): void {
    this.#leaf.hand(this.at(at), text, { size, colour: pen, chance: this.#chance });
  }

  lot(): void {
    this.stroke([...corners, corners[0], [4, 30]]);
    for (const off of [-4, -30])
      this.stroke([
        [off - 1, -12],
        [off + 26, 460],
      ]);
    this.box(onLot.house.at, onLot.house.size);
    this.words([155, 216], 'HOUSE', 8);
    this.stroke([
      [330, 380],
      [330, 430],
      [324, 418],
      [330, 430],
      [336, 418],
    ]);
    this.words([326, 440], 'N');
    this.words([-42, -18], 'HERON LANE');
  }
}

/** The soil tester's sketch: pits, test holes, both septic areas, the well. */
export function fieldSketch(leaf: Leaf): void {
  const sketch = new Sketch(leaf, 'field sketch');
  sketch.lot();
  for (let i = 0; i < 5; i += 1)
    sketch.stroke([
      [206, 94 + i * 9],
      [254, 94 + i * 9],
    ]);
  sketch.box(onLot.repair.at, onLot.repair.size);
  sketch.words([196, 140], 'PRIMARY 5 X 50 FT', 9);
  sketch.words([213, 50], 'REPAIR', 9);
  const [x, y] = onLot.well;
  sketch.stroke([
    [x - 4, y],
    [x, y + 4],
    [x + 4, y],
    [x, y - 4],
    [x - 4, y],
    [x, y + 4],
  ]);
  sketch.words([x + 9, y - 2], 'WELL', 9);
  sketch.stroke(
    [
      [x, y - 8],
      [x + 3, 138],
    ],
    0.7,
  );
  sketch.words([x + 8, 210], '162 FT', 9);
  for (const [at, name] of [
    [[184, 128], 'P-1'],
    [[264, 112], 'P-2'],
    [[262, 66], 'P-3'],
    [[172, 96], 'PIT 1'],
    [[268, 34], 'PIT 2'],
  ] as const) {
    sketch.stroke([
      [at[0] - 5, at[1]],
      [at[0] - 2, at[1] + 4],
    ]);
    sketch.stroke([
      [at[0] - 5, at[1] + 4],
      [at[0] - 2, at[1]],
    ]);
    sketch.words(at, name, 8.5);
  }
  sketch.words([30, 400], 'GROUND FALLS 4% TO EAST', 9);
  sketch.stroke([
    [60, 380],
    [110, 378],
    [104, 383],
    [110, 378],
    [104, 374],
  ]);
}

/** The owner's own drawing of the silt fence. */
export async function erosionSketch(): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Erosion sketch', day: '2026-04-01', faces: ['sans'] });
  const leaf = book.leaf();
  const chance = new Chance('heading');
  leaf.hand([60, 66], 'LOT 7 - 418 HERON LANE', { size: 14, colour: pen, chance });
  leaf.hand([60, 92], 'EROSION SKETCH   APRIL 1 2026   DRAWN BY T. LINDQVIST', { size: 9.5, colour: pen, chance });
  const sketch = new Sketch(leaf, 'erosion');
  sketch.lot();
  sketch.stroke([
    [12, 226],
    [144, 226],
  ]);
  sketch.stroke([
    [12, 214],
    [144, 214],
  ]);
  sketch.words([32, 234], 'DRIVE, STONE 50 FT', 8.5);
  const fence: readonly (readonly [number, number])[] = [
    [176, 300],
    [196, 270],
    [200, 200],
    [194, 160],
    [160, 150],
  ];
  sketch.stroke(fence, 2);
  for (let i = 0; i < 9; i += 1)
    sketch.stroke(
      [
        [194 + Math.sin(i) * 2, 178 + i * 11],
        [204 + Math.sin(i) * 2, 182 + i * 11],
      ],
      0.9,
    );
  sketch.words([212, 250], 'SILT FENCE 190 FT', 9.5);
  sketch.words([212, 236], 'TRENCHED IN 6 IN', 8);
  sketch.box([205, 30], [50, 103]);
  sketch.words([209, 90], 'SEPTIC', 9);
  sketch.words([209, 74], 'FENCED OFF', 7.5);
  sketch.stroke([
    [60, 330],
    [76, 352],
    [98, 356],
    [116, 330],
    [60, 330],
  ]);
  sketch.words([50, 314], 'TOPSOIL, COVERED', 8.5);
  sketch.stroke([
    [240, 330],
    [290, 328],
    [284, 333],
    [290, 328],
    [284, 323],
  ]);
  sketch.words([242, 338], 'FALLS 4%', 9);
  sketch.words([200, -28], 'NOT TO SCALE', 8);
  return scan(await book.bytes(), {
    seed: 'erosion',
    title: 'erosion sketch',
    day: '2026-04-01',
    dpi: 150,
    quality: 50,
  });
}
