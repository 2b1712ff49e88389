import type { Chance } from './chance.ts';

/** Pen strokes on a grid 4 wide and 6 high, pairs of digits x y; strokes are separated by a blank. */
const grid: Readonly<Record<string, string>> = {
  A: '002640 1232',
  B: '0006 0636450333 0333424000',
  C: '4536163020010516 3516',
  D: '0006 063645413000',
  E: '460600 0333 0040',
  F: '0006 0646 0333',
  G: '453616050110304143 4323',
  H: '0006 4046 0343',
  I: '2026 1636 1030',
  J: '1646 3631201001',
  K: '0006 4603 1440',
  L: '060040',
  M: '0006234640',
  N: '00064046',
  O: '1605011030414536 3616',
  P: '0006 063645433303',
  Q: '1605011030414536 3616 2240',
  R: '0006 063645433303 2340',
  S: '453616050433424130100 1',
  T: '2026 0646',
  U: '060110304146',
  V: '062046',
  W: '0610233046',
  X: '0046 0640',
  Y: '062346 2320',
  Z: '06460040',
  0: '1605011030414536 3616',
  1: '152620',
  2: '0516364544000040',
  3: '0516364544331333424130100 1',
  4: '3036020242',
  5: '46060334424130100 1',
  6: '3616040110304142331302',
  7: '064610',
  8: '1605041333424130100102133344453616',
  9: '4433140516364541300',
  '.': '2021',
  ',': '2110',
  '-': '1333',
  '/': '0046',
  "'": '2625',
  '"': '1615 3635',
  ':': '2122 2425',
  '#': '1016 3036 0242 0444',
  '&': '40051626250110314 2',
  '(': '36140230',
  ')': '16343210',
  '%': '0046 0615 4031',
  '+': '2125 0343',
  '=': '0242 0444',
  '@': '3323223242453616050110304 0',
};

export interface Letter {
  readonly strokes: readonly (readonly [number, number][])[];
  readonly advance: number;
}

/** One hand-printed letter at cap height `size`; small letters are smaller capitals, as draftsmen print. */
export function letterStrokes(letter: string, size: number, chance: Chance): Letter {
  const plain = letter.normalize('NFD').charAt(0);
  const big = plain.toUpperCase();
  const scale = ((plain === big ? 1 : 0.8) * size) / 6;
  const data = grid[big];
  if (data === undefined) return { strokes: [], advance: size * 0.5 };
  const shake = (): number => chance.bell() * 0.16 * scale;
  const strokes = data
    .replace(/(\d) (\d)$/, '$1$2')
    .split(' ')
    .map((stroke) =>
      Array.from({ length: Math.floor(stroke.length / 2) }, (_, i): [number, number] => [
        Number(stroke[i * 2]) * scale * 0.9 + shake(),
        Number(stroke[i * 2 + 1]) * scale + shake(),
      ]),
    );
  const narrow = ".,':I1".includes(big);
  return { strokes, advance: scale * (narrow ? 3.6 : 4.9) };
}
