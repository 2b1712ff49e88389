import { describe, expect, it } from 'vitest';
import { clearStrips as allStrips } from '../../core/intake/page/clear-strips.ts';
import type { Raster } from '../../core/intake/pdfium/read-page.ts';

const letter = { width: 612, height: 792 };

/** A page of even paper at 72 dpi; `paint` draws in seen points from the lower left. */
function paper(shade = 255, size = letter) {
  const raster: Raster = { ...size, scale: 1, pixels: new Uint8Array(size.width * size.height).fill(shade) };
  const paint = (x: number, y: number, width: number, height: number, value = 0) => {
    for (let row = size.height - y - height; row < size.height - y; row += 1) {
      raster.pixels.fill(value, row * size.width + x, row * size.width + x + width);
    }
  };
  return { raster, paint };
}

const lies = ({ width, height }: { readonly width: number; readonly height: number }): boolean => width >= height;
const clearStrips = (...page: Parameters<typeof allStrips>) => allStrips(...page).filter(lies);

/** A small fixed generator: noise that is the same in every run. */
function grain(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1664525 + 1013904223) % 4294967296;
    return state / 4294967296;
  };
}

describe('measuring clear strips', () => {
  it('offers the bottom edge before the top, the long line before the short, and keeps off the edges', () => {
    const strips = clearStrips(paper().raster, letter);
    expect(strips.map(({ width, height }) => [width, height])).toEqual([
      [300, 12],
      [240, 11],
      [190, 10],
      [300, 12],
      [240, 11],
      [190, 10],
    ]);
    expect(strips[0]).toMatchObject({ y: 18 });
    expect(strips[3]?.y).toBe(792 - 18 - 12);
    for (const { x, y, width, height } of strips) {
      expect(Math.min(x, y, 612 - x - width, 792 - y - height)).toBeGreaterThanOrEqual(7);
    }
  });

  it('goes above a footer, not over it', () => {
    const { raster, paint } = paper();
    paint(60, 14, 500, 12);
    const [first] = clearStrips(raster, letter);
    expect(first?.y).toBeGreaterThanOrEqual(14 + 12 + 2);
    expect(first?.y).toBeLessThan(35);
  });

  it('goes left of what stands at the right', () => {
    const { raster, paint } = paper();
    paint(400, 0, 212, 120);
    const [first] = clearStrips(raster, letter);
    expect((first?.x ?? 0) + (first?.width ?? 0)).toBeLessThanOrEqual(398);
  });

  it('offers only what is long enough', () => {
    const { raster, paint } = paper();
    paint(0, 0, 612, 792, 0);
    paint(200, 10, 210, 50, 255);
    expect(clearStrips(raster, letter).map(({ width }) => width)).toEqual([190]);
  });

  it('offers nothing on a page that is full', () => {
    const { raster, paint } = paper();
    paint(0, 0, 612, 792, 40);
    expect(clearStrips(raster, letter)).toEqual([]);
  });

  it.each([
    ['black', 0],
    ['dark grey', 120],
    ['mid grey, as a scanned shadow', 190],
  ])('takes %s paper for no place to write on', (_what, shade) => {
    expect(clearStrips(paper(shade).raster, letter)).toEqual([]);
  });

  it('takes grey scanned paper with its grain for clear', () => {
    const { raster } = paper();
    const next = grain(7);
    for (let index = 0; index < raster.pixels.length; index += 1) {
      raster.pixels[index] = Math.round(222 + (next() + next() + next() - 1.5) * 6);
    }
    expect(clearStrips(raster, letter)).toHaveLength(6);
  });

  it.each([
    ['a hairline', 1, 225],
    ['a faint ruled line', 1, 247],
    ['pencil', 2, 235],
  ])('sees %s across the paper', (_what, height, shade) => {
    const { raster, paint } = paper();
    for (let y = 6; y < 110; y += 9) paint(0, y, 612, height, shade);
    for (let y = 700; y < 790; y += 9) paint(0, y, 612, height, shade);
    expect(clearStrips(raster, letter)).toEqual([]);
  });

  it('sees a single speck of ink', () => {
    const { raster, paint } = paper();
    for (let x = 10; x < 600; x += 90) for (let y = 0; y < 792; y += 9) paint(x, y, 2, 1, 100);
    expect(clearStrips(raster, letter)).toEqual([]);
  });

  it('reaches further in on a large sheet, measured at a coarser scale', () => {
    const size = { width: 1800, height: 1200 };
    const { raster, paint } = paper(255, size);
    paint(0, 0, 1800, 50);
    const [first] = clearStrips({ ...raster, scale: 50 / 72 }, { width: 2592, height: 1728 });
    expect(first?.y).toBeGreaterThanOrEqual(72 + 2);
    expect(first?.y).toBeLessThanOrEqual(100 - 12);
  });

  it('offers nothing on a page smaller than a line', () => {
    expect(clearStrips(paper(255, { width: 150, height: 200 }).raster, { width: 150, height: 200 })).toEqual([]);
  });

  it('offers standing ones for a page that is turned: the right edge, then the left, clear all along', () => {
    const { raster, paint } = paper();
    paint(560, 300, 52, 40);
    const standing = allStrips(raster, letter).filter((strip) => !lies(strip));
    expect(standing.map(({ width, height }) => [width, height])).toEqual([
      [12, 300],
      [11, 240],
      [10, 190],
      [12, 300],
      [11, 240],
      [10, 190],
    ]);
    expect(standing[0]).toMatchObject({ x: 612 - 18 - 12 });
    expect(standing[3]).toMatchObject({ x: 18 });
    for (const { x, y, width, height } of standing) {
      expect(Math.min(x, y, 612 - x - width, 792 - y - height)).toBeGreaterThanOrEqual(7);
      // Nothing of what stands at the right is under one.
      if (x > 306) expect(y >= 340 || y + height <= 300).toBe(true);
    }
  });
});
