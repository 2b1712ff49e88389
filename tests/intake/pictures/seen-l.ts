import { expect } from 'vitest';
import { sightOf } from '../keeping.ts';

/** Grey values of the page at fractions of the place where the picture stands; the lower left third of an L is dark. */
async function greyAt(path: string, page: number, spots: readonly (readonly [number, number])[]) {
  const { raster } = await sightOf(path, page);
  const dark = [...raster.pixels.keys()].filter((index) => (raster.pixels[index] ?? 255) < 250);
  const columns = dark.map((index) => index % raster.width);
  const rows = dark.map((index) => Math.floor(index / raster.width));
  const reach = (values: readonly number[]) => [
    values.reduce((a, b) => Math.min(a, b)),
    values.reduce((a, b) => Math.max(a, b)),
  ];
  const [[left = 0, right = 0], [top = 0, bottom = 0]] = [reach(columns), reach(rows)];
  return spots.map(([x, y]) => {
    const column = Math.round(left + x * (right - left));
    const row = Math.round(top + y * (bottom - top));
    return raster.pixels[row * raster.width + column] ?? 255;
  });
}

/** The stem, the end of the foot, the empty upper right of the L. */
const spotsOfL = [
  [0.17, 0.4],
  [0.6, 0.82],
  [0.8, 0.3],
] as const;

/** The page shows the L of make-pictures.ts, upright. */
export async function expectL(path: string, page = 0): Promise<void> {
  const [stem = 255, foot = 255, empty = 0] = await greyAt(path, page, spotsOfL);
  expect(stem).toBeLessThan(90);
  expect(foot).toBeLessThan(150);
  expect(empty).toBeGreaterThan(215);
}
