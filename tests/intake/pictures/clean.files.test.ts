import { writeFileSync } from 'node:fs';
import sharp from 'sharp';
import { afterAll, describe, expect, it } from 'vitest';
import { keepFile } from '../../../core/intake/keep-file.ts';
import type { CleanUp } from '../../../core/intake/rendition-model.ts';
import { bench, sightOf } from '../keeping.ts';

const at = bench();
afterAll(() => at.clear());

let count = 0;
async function cleaned(bytes: Buffer, clean: CleanUp) {
  count += 1;
  const [input, output] = [at.path(`clean-${count}.jpg`), at.path(`clean-${count}.kept`)];
  writeFileSync(input, bytes);
  const done = await keepFile({ job: 'keep', input, name: 'photo.jpg', output, recipe: { clean } });
  return { ...done, sight: await sightOf(output) };
}

/** A pinhole camera over a letter sheet, tilted and turned: where a point of the sheet (inches) falls in the photo. */
function seen([x, y]: readonly [number, number]): readonly [number, number] {
  const [tilt, turn, focal, away] = [0.45, 0.12, 2000, 17];
  const [across, down] = [x - 4.25, y - 5.5];
  const [rx, ry] = [across * Math.cos(turn) - down * Math.sin(turn), across * Math.sin(turn) + down * Math.cos(turn)];
  const depth = away - ry * Math.sin(tilt);
  return [800 + (focal * rx) / depth, 1000 + (focal * ry * Math.cos(tilt)) / depth];
}

const corners = (
  [
    [0, 0],
    [8.5, 0],
    [8.5, 11],
    [0, 11],
  ] as const
).map(seen);
/** Marks an inch from each edge. */
const markCentres = (
  [
    [1, 1],
    [7.5, 1],
    [7.5, 10],
    [1, 10],
  ] as const
).map(seen);

/** Near each corner a mark of its own darkness, towards the middle. */
function photo(background: string, sheet = '#f4f2ea'): Promise<Buffer> {
  const marks = markCentres.map(
    ([x, y], index) => `<circle cx="${x}" cy="${y}" r="42" fill="${['#000', '#444', '#777', '#aaa'][index] ?? ''}"/>`,
  );
  const outline = corners.map((corner) => corner.join(',')).join(' ');
  return sharp(
    Buffer.from(
      `<svg xmlns="http://www.w3.org/2000/svg" width="1600" height="2000"><rect width="1600" height="2000" fill="${background}"/><polygon points="${outline}" fill="${sheet}"/>${marks.join('')}</svg>`,
    ),
  )
    .jpeg({ quality: 90 })
    .toBuffer();
}

describe('cutting a sheet out of a photo', () => {
  it('finds its corners and lays it flat over a letter page', async () => {
    const { rendition, sight } = await cleaned(await photo('#3a3f45'), { crop: 'find' });
    expect(rendition.pages[0]).toMatchObject({ width: 612, height: 792 });
    expect(rendition.recipe).toMatch(/cleaned up as asked, fills its sheet/);
    expect(rendition.notes).toEqual([]);
    const { pixels, width, height } = sight.raster;
    const grey = (x: number, y: number) =>
      pixels[Math.round(y * (height - 1)) * width + Math.round(x * (width - 1))] ?? 0;
    // No table left: the border is paper all around.
    for (const part of [0.01, 0.3, 0.7, 0.99]) {
      for (const [x, y] of [
        [part, 0.006],
        [part, 0.994],
        [0.006, part],
        [0.994, part],
      ] as const)
        expect(grey(x, y)).toBeGreaterThan(200);
    }
    // The marks stand an inch from the edges again: 0, 0x44, 0x77, 0xaa from the upper left clockwise.
    const marks = [
      [1 / 8.5, 1 / 11],
      [7.5 / 8.5, 1 / 11],
      [7.5 / 8.5, 10 / 11],
      [1 / 8.5, 10 / 11],
    ] as const;
    for (const [index, [x, y]] of marks.entries()) expect(grey(x, y) / 0x11).toBeCloseTo([0, 4, 7, 10][index] ?? 0, 0);
  });

  it('takes the corners that a person marked', async () => {
    const marked = corners.map(([x, y]) => ({ x: x / 1600, y: y / 2000 }));
    const [a, b, c, d] = marked;
    if (a === undefined || b === undefined || c === undefined || d === undefined) throw new Error('four corners');
    // On a background as bright as the sheet nothing could be found.
    const { rendition, sight } = await cleaned(await photo('#f4f2ea'), { crop: [a, b, c, d] });
    expect(rendition.pages[0]).toMatchObject({ width: 612, height: 792 });
    expect(sight.raster.pixels[72 * 612 + 72]).toBeLessThan(30);
  });

  it('cuts nothing where no sheet stands out, and says so', async () => {
    const { rendition } = await cleaned(await photo('#f4f2ea'), { crop: 'find' });
    expect(rendition.notes).toEqual([expect.stringMatching(/nothing was cut off/)]);
    expect(rendition.pages[0]).toMatchObject({ width: 612, height: 792 });
  });
});

const rules = Array.from(
  { length: 24 },
  (_, row) => `<rect x="140" y="${150 + row * 70}" width="1300" height="14" fill="#222"/>`,
).join('');

describe('mending a scan', () => {
  it('levels a sheet that lay askew', async () => {
    const askew = await sharp(
      Buffer.from(
        `<svg xmlns="http://www.w3.org/2000/svg" width="1700" height="2200"><rect width="1700" height="2200" fill="#fff"/><g transform="rotate(2.5 850 1100)">${rules}</g></svg>`,
      ),
    )
      .jpeg()
      .toBuffer();
    const inkRows = ({ width, height, pixels }: { width: number; height: number; pixels: Uint8Array }) => {
      let rows = 0;
      for (let y = 0; y < height; y += 1) {
        if (pixels.subarray(y * width, (y + 1) * width).some((value) => value < 120)) rows += 1;
      }
      return rows;
    };
    const plain = await cleaned(askew, {});
    const level = await cleaned(askew, { straighten: true });
    // 24 rules of 5 points each, if they lie level.
    expect(inkRows(level.sight.raster)).toBeLessThan(24 * 9);
    expect(inkRows(plain.sight.raster)).toBeGreaterThan(24 * 20);
    expect(level.rendition.pages[0]).toMatchObject({ width: 612, height: 792 });
  });

  it('evens out a shadow: paper becomes white, ink stays dark', async () => {
    const shaded = await sharp(
      Buffer.from(
        `<svg xmlns="http://www.w3.org/2000/svg" width="1700" height="2200"><defs><linearGradient id="g"><stop offset="0" stop-color="#e8e4da"/><stop offset="1" stop-color="#77736b"/></linearGradient></defs><rect width="1700" height="2200" fill="url(#g)"/>${rules}</svg>`,
      ),
    )
      .jpeg()
      .toBuffer();
    const { sight } = await cleaned(shaded, { contrast: true });
    const { pixels, width } = sight.raster;
    const row = (y: number) => pixels.subarray(y * width, (y + 1) * width);
    expect(Math.min(...row(20))).toBeGreaterThan(225);
    expect(Math.max(...row(Math.round((157 / 2200) * 792)).subarray(80, 480))).toBeLessThan(110);
  });

  it('leaves the file itself as it came', async () => {
    const bytes = await photo('#333');
    const { rendition } = await cleaned(bytes, { crop: 'find', contrast: true });
    const plain = await at.keep(bytes, 'photo.jpg');
    expect(rendition.source).toBe(plain.rendition.source);
    expect(rendition.recipe).not.toBe(plain.rendition.recipe);
  });
});
