import { readFileSync } from 'node:fs';
import sharp from 'sharp';
import { afterAll, describe, expect, it } from 'vitest';
import { withinTime } from '../../../core/intake/within-time.ts';
import { bench, sightOf } from '../keeping.ts';
import { drawnL, letterL } from '../make-pictures.ts';
import { bmpOf } from './make-bmp.ts';
import { withTurn } from './make-heic.ts';
import { barredTwoTone, tiffOf } from './make-tiff.ts';
import { expectL } from './seen-l.ts';

const at = bench();
afterAll(() => at.clear());

/** Written by heif-enc 1.15 from the L of make-pictures.ts, 96 x 64 dots. */
function sample(name: string): Buffer {
  return readFileSync(new URL(`samples/${name}`, import.meta.url));
}

describe('keeping a HEIC photo', () => {
  it('lays it on a page, decoded', async () => {
    const kept = await at.keep(sample('L.heic'), 'phone.heic');
    expect(kept.rendition.pages[0]).toMatchObject({ width: 792, height: 612 });
    expect(kept.rendition.tool).toContain('libheif');
    await expectL(kept.output);
  });

  it('turns it as the file itself says, once', async () => {
    // The L stored turned a quarter clockwise, and the property that turns it back by one counter-clockwise.
    const stored = await at.keep(sample('L6.heic'), 'stored.heic');
    expect(stored.rendition.pages[0]).toMatchObject({ width: 612, height: 792 });
    const turned = await at.keep(withTurn(sample('L6.heic'), 3), 'turned.heic');
    expect(turned.rendition.pages[0]).toMatchObject({ width: 792, height: 612 });
    await expectL(turned.output);
  });

  it('carries its colour profile into the page', async () => {
    const kept = await at.keep(sample('Lp3.heic'), 'wide.heic');
    expect(readFileSync(kept.output).includes('/ICCBased')).toBe(true);
    await expectL(kept.output);
  });

  it('keeps every shot of a file that holds several, and says so', async () => {
    const kept = await at.keep(sample('two.heic'), 'two.heic');
    expect(kept.rendition.pages.map(({ width }) => width)).toEqual([792, 612]);
    expect(kept.rendition.notes).toEqual([expect.stringMatching(/several shots/)]);
  });

  it('reads AVIF, which comes in the same box', async () => {
    await expectL((await at.keep(sample('L.avif'), 'site.avif')).output);
  });

  it.each([700, 400, 60])('refuses one that breaks off after %i bytes', async (length) => {
    await expect(at.keep(sample('L.heic').subarray(0, length), 'cut.heic')).rejects.toMatchObject({
      code: 'file refused',
      message: expect.stringMatching(/breaks off or is damaged/),
    });
  });
});

describe('keeping a TIFF', () => {
  it('makes a page of each picture, and none of the small copies beside them', async () => {
    const page = {
      width: 1700,
      height: 2200,
      bits: 1,
      data: barredTwoTone(1700, 2200),
      resolution: [200, 200] as const,
    };
    const small = { width: 170, height: 220, bits: 1, data: barredTwoTone(170, 220), subfile: 1 };
    const kept = await at.keep(tiffOf([page, small, page, small, page]), 'fax.tif');
    expect(kept.rendition.pages.map(({ width, height }) => [width, height])).toEqual([
      [612, 792],
      [612, 792],
      [612, 792],
    ]);
    expect(kept.rendition.recipe).toMatch(/^fax.*true size$/);
    const { raster } = await sightOf(kept.output, 2);
    expect([raster.pixels[100 * 612 + 300], raster.pixels[300 * 612 + 300]]).toEqual([0, 255]);
    expect(kept.bytes).toBeLessThan(12_000);
  });

  it('shows a coarse fax in the shape of its sheet: 204 dots across, 98 down (ITU-T T.4)', async () => {
    const [width, height] = [1728, 1078];
    const fax = { width, height, bits: 1, data: barredTwoTone(width, height), resolution: [204, 98] as const };
    const [page] = (await at.keep(tiffOf([fax]), 'fax.tif')).rendition.pages;
    expect(page?.width).toBeCloseTo((1728 / 204) * 72, 1);
    expect(page?.height).toBeCloseTo((1078 / 98) * 72, 1);
  });

  it('keeps the shape where the densities only stand in a ratio', async () => {
    const fax = {
      width: 800,
      height: 550,
      bits: 1,
      data: barredTwoTone(800, 550),
      resolution: [2, 1] as const,
      unit: 1,
    };
    const kept = await at.keep(tiffOf([fax]), 'fax.tif');
    const { raster } = await sightOf(kept.output);
    // The bar is as wide as the picture and a quarter as high: 800 dots by 1100 halves, so 2.9 times as wide.
    const dark = [...raster.pixels.keys()].filter((index) => (raster.pixels[index] ?? 255) < 100);
    const rows = new Set(dark.map((index) => Math.floor(index / raster.width))).size;
    expect(dark.length / rows / rows).toBeCloseTo(800 / 275, 1);
  });

  it('takes centimetres, and no density that can not be', async () => {
    const one = { width: 1700, height: 2200, bits: 1, data: barredTwoTone(1700, 2200) };
    const metric = await at.keep(tiffOf([{ ...one, resolution: [78.74, 78.74], unit: 3 }]), 'metric.tif');
    expect(metric.rendition.pages[0]?.width).toBeCloseTo(612, 0);
    // Absurd: the shape alone tells a letter sheet.
    const absurd = await at.keep(tiffOf([{ ...one, resolution: [72_000, 72_000] }]), 'absurd.tif');
    expect(absurd.rendition.pages[0]).toMatchObject({ width: 612, height: 792 });
    expect(absurd.rendition.recipe).toMatch(/fills its sheet/);
  });

  it.each([1, 3, 6, 8])('honours orientation %i of tag 274 once', async (orientation) => {
    const turned = [1, 3].includes(orientation) ? [600, 400] : [400, 600];
    const angle = { 1: 0, 3: 180, 6: 270, 8: 90 }[orientation] ?? 0;
    const { data, info } = await sharp(await drawnL().png().toBuffer())
      .rotate(angle)
      .raw()
      .toBuffer({ resolveWithObject: true });
    expect([info.width, info.height]).toEqual(turned);
    const bytes = tiffOf([{ width: info.width, height: info.height, bits: 8, samples: 3, data, orientation }]);
    const kept = await at.keep(bytes, 'scan.tif');
    expect(kept.rendition.pages[0]).toMatchObject({ width: 792, height: 612 });
    await expectL(kept.output);
  });

  it.each(['lzw', 'deflate', 'jpeg', 'packbits', 'none'] as const)('reads %s', async (compression) => {
    const bytes = await drawnL().tiff({ compression, quality: 90 }).toBuffer();
    await expectL((await at.keep(bytes, 'scan.tif')).output);
  });

  it('reads fax coding (T.6), 16 bits a colour and printing colours', async () => {
    const fax = await drawnL()
      .toColourspace('b-w')
      .threshold(150)
      .tiff({ compression: 'ccittfax4', bitdepth: 1 })
      .toBuffer();
    expect((await at.keep(fax, 'fax.tif')).rendition.recipe).toMatch(/^fax/);
    await expectL((await at.keep(await drawnL().toColourspace('rgb16').tiff().toBuffer(), 'deep.tif')).output);
    await expectL((await at.keep(await drawnL().toColourspace('cmyk').tiff().toBuffer(), 'press.tif')).output);
  });

  it('keeps the colours of a palette', async () => {
    // Two colours, red and blue, in a palette of 256 (photometric 3, tag 320); the first half red.
    const palette = Buffer.alloc(256 * 3 * 2);
    palette.writeUInt16LE(0xffff, 0);
    palette.writeUInt16LE(0xffff, 256 * 4 + 2);
    const data = Buffer.concat([Buffer.alloc(200 * 100, 0), Buffer.alloc(200 * 100, 1), palette]);
    const bytes = tiffOf([
      { width: 200, height: 200, bits: 8, data, photometric: 3, more: [[320, 3, 8 + 200 * 200, 768]] },
    ]);
    const kept = await at.keep(bytes, 'plan.tif');
    expect(readFileSync(kept.output).includes('/DeviceRGB')).toBe(true);
    const { raster } = await sightOf(kept.output);
    const grey = new Set([...raster.pixels].filter((value) => value < 250));
    // Red and blue as greys (Rec. 601), as the reader shows them.
    expect([...grey].some((value) => Math.abs(value - 76) < 8)).toBe(true);
    expect([...grey].some((value) => Math.abs(value - 29) < 8)).toBe(true);
  });

  it('takes a halftone fax for what it shows', async () => {
    const [width, height] = [600, 400];
    const dots = Buffer.alloc((width / 8) * height);
    for (let y = 0; y < height; y += 1) dots.fill(y % 2 === 0 ? 0x55 : 0xaa, (y * width) / 8, ((y + 1) * width) / 8);
    const kept = await at.keep(tiffOf([{ width, height, bits: 1, data: dots }]), 'photo-fax.tif');
    expect(kept.rendition.recipe).toMatch(/^fax/);
  });

  it('asks a second reader where the first one gives up, and says so', async () => {
    // JPEG inside in the old style (compression 6, TIFF 6.0 section 22), which newer readers no longer take.
    const jpeg = await drawnL().jpeg({ quality: 90 }).toBuffer();
    const old = tiffOf([
      {
        width: 600,
        height: 400,
        bits: 8,
        samples: 3,
        compression: 6,
        data: jpeg,
        more: [
          [512, 3, 1],
          [513, 4, 8],
          [514, 4, jpeg.length],
        ],
      },
    ]);
    const kept = await at.keep(old, 'old.tif');
    await expectL(kept.output);
    if (kept.rendition.recipe.includes('second reader')) expect(kept.rendition.notes[0]).toMatch(/a second one did/);
    else expect(kept.rendition.notes).toEqual([]);
  });

  it.each([
    ['billion.tif', 'counts of values that no file holds'],
    ['endless.tif', 'codes that end nowhere'],
  ])('refuses %s, a find of the fuzz: %s', async (name) => {
    const before = process.memoryUsage.rss();
    await expect(at.keep(sample(name), name)).rejects.toMatchObject({ code: 'file refused', about: name });
    expect(process.memoryUsage.rss() - before).toBeLessThan(700 * 1024 * 1024);
  });

  it('stops a decoder that never comes to an end (a find of the fuzz)', () => {
    const endless = (): number => {
      for (let n = 0; ; n = (n + 1) % 7) if (n > 7) return n;
    };
    expect(() => withinTime(0.2, endless)).toThrow(/timeout/);
    expect(withinTime(5, () => 42)).toBe(42);
    expect(() =>
      withinTime(5, () => {
        throw new RangeError('as it was');
      }),
    ).toThrow(/as it was/);
  });

  it('refuses colours of 32 bits each, which come out as something else, and says what to do', async () => {
    const data = Buffer.alloc(60 * 40 * 4);
    for (let at = 0; at < data.length; at += 4) data.writeUInt32LE((at * 70_001) >>> 0, at);
    await expect(at.keep(tiffOf([{ width: 60, height: 40, bits: 32, data }]), 'fine.tif')).rejects.toMatchObject({
      code: 'file refused',
      message: expect.stringMatching(/32 bits each/),
    });
  });

  it('refuses what is cut short, what bites its own tail without a picture, and what claims too much', async () => {
    const sound = tiffOf([{ width: 600, height: 400, bits: 8, samples: 3, data: letterL() }]);
    const huge = tiffOf([{ width: 60_000, height: 60_000, bits: 1, data: Buffer.alloc(10) }]);
    for (const bytes of [Buffer.from('II*\0\u0008\0\0\0\0\0\u0008\0\0\0', 'latin1'), sound.subarray(0, 300), huge]) {
      await expect(at.keep(bytes, 'bad.tif')).rejects.toMatchObject({ code: 'file refused', about: 'bad.tif' });
    }
  });
});

describe('keeping WebP, GIF and BMP', () => {
  it.each([
    ['lossy.webp', () => drawnL().webp({ quality: 80 }).toBuffer(), /^photo/],
    ['lossless.webp', () => drawnL().webp({ lossless: true }).toBuffer(), /^picture.*untouched/],
    ['plan.gif', () => drawnL().gif().toBuffer(), /^picture.*untouched/],
    ['up.bmp', () => Promise.resolve(bmpOf(letterL(), 600, 400, false)), /^picture.*untouched/],
    ['down.bmp', () => Promise.resolve(bmpOf(letterL(), 600, 400, true)), /^picture.*untouched/],
  ])('%s shows as drawn', async (name, make, recipe) => {
    const kept = await at.keep(await make(), name);
    expect(kept.rendition.recipe).toMatch(recipe);
    await expectL(kept.output);
  });

  it('lets no small photo of strong colours fail the proof (its decoder leaves dots out where it is asked for fewer)', async () => {
    const wheel = Array.from({ length: 12 }, (_, n) => {
      const at = (turn: number): string => `${99 + 95 * Math.cos(turn)},${99 + 95 * Math.sin(turn)}`;
      const [from, to] = [(n * Math.PI) / 6, ((n + 1) * Math.PI) / 6];
      return `<polygon points="99,99 ${at(from)} ${at(to)}" fill="${n % 2 === 0 ? '#10004a' : '#f6f000'}"/>`;
    });
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="198" height="198"><rect width="198" height="198" fill="#fff"/>${wheel.join('')}</svg>`;
    const jpeg = await sharp(Buffer.from(svg)).flatten().jpeg({ quality: 82 }).toBuffer();
    expect((await at.keep(jpeg, 'wheel.jpg')).rendition.pages).toHaveLength(1);
  });

  it('keeps the first picture of one that moves, and says so', async () => {
    const frames = Buffer.concat([letterL(60, 40), Buffer.alloc(60 * 40 * 3, 10)]);
    const gif = await sharp(frames, { raw: { width: 60, height: 80, channels: 3, pageHeight: 40 } })
      .gif()
      .toBuffer();
    const { notes, pages } = (await at.keep(gif, 'moving.gif')).rendition;
    expect(pages).toHaveLength(1);
    expect(notes).toEqual([expect.stringMatching(/first one is kept/)]);
  });

  it.each([
    [180, 68],
    [20, 22],
    [3, 3],
  ])('keeps a dark picture of %i x %i dots, whose edges weigh much', async (width, height) => {
    const data = Buffer.alloc(width * height * 3).map((_, index) => (Math.floor(index / 3) % 3) * 60);
    const gif = await sharp(data, { raw: { width, height, channels: 3 } })
      .gif()
      .toBuffer();
    expect((await at.keep(gif, 'mark.gif')).rendition.pages).toHaveLength(1);
  });

  it('lays a see-through picture on white', async () => {
    const clear = await sharp({ create: { width: 400, height: 300, channels: 4, background: '#00000000' } })
      .webp({ lossless: true })
      .toBuffer();
    const { raster } = await sightOf((await at.keep(clear, 'clear.webp')).output);
    expect(raster.pixels.every((value) => value > 250)).toBe(true);
  });

  it('refuses a BMP that is cut short or claims too much', async () => {
    const sound = bmpOf(letterL(), 600, 400, false);
    const huge = Buffer.from(sound);
    huge.writeInt32LE(2_000_000, 18);
    const claims = Buffer.from(sound);
    claims.writeInt32LE(12_000, 18);
    claims.writeInt32LE(12_000, 22);
    for (const bytes of [sound.subarray(0, 40), sound.subarray(0, 5000), huge, claims]) {
      await expect(at.keep(bytes, 'bad.bmp')).rejects.toMatchObject({ code: 'file refused', about: 'bad.bmp' });
    }
  });
});
