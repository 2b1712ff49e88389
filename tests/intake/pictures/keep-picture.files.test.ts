import { readFileSync } from 'node:fs';
import { crc32, inflateSync } from 'node:zlib';
import sharp from 'sharp';
import { afterAll, describe, expect, it } from 'vitest';
import { fileSource } from '../../../core/intake/pdfium/byte-source.ts';
import { RegularFile } from '../../../core/intake/regular/regular-file.ts';
import { nameOf } from '../../../core/intake/regular/values.ts';
import { bench, sightOf } from '../keeping.ts';
import { drawnL, letterL, phoneJpeg, storedFor, withDensity } from '../make-pictures.ts';

const at = bench();
afterAll(() => at.clear());

/** The picture stream of a kept page, and its dictionary. */
function pictureOf(path: string): { readonly data: Buffer; readonly get: (key: string) => unknown } {
  const source = fileSource(path);
  try {
    const file = new RegularFile(source);
    for (let number = 1; number < file.size; number += 1) {
      const dict = file.dict({ ref: number });
      const data = file.streamBytes(number);
      if (nameOf(dict.get('Subtype')) === 'Image' && data !== undefined) return { data, get: (key) => dict.get(key) };
    }
  } finally {
    source.close();
  }
  throw new Error('no picture in the page');
}

describe('keeping a photo', () => {
  it.each([1, 2, 3, 4, 5, 6, 7, 8])('stands upright for EXIF orientation %i', async (orientation) => {
    const kept = await at.keep(await storedFor(orientation), 'site.jpg');
    const [page] = kept.rendition.pages;
    expect(page).toMatchObject({ width: 792, height: 612 });
    const { raster } = await sightOf(kept.output);
    // The picture is 600 x 400 at 96 dots to the inch: 450 x 300 pt, centred above the bottom margin.
    const left = (792 - 450) / 2;
    const top = 612 - (54 + (612 - 90 - 300) / 2 + 300);
    const grey = (x: number, y: number) =>
      raster.pixels[Math.round(top + y * 300) * raster.width + Math.round(left + x * 450)] ?? 0;
    expect(grey(0.17, 0.3)).toBeLessThan(60);
    expect(grey(0.6, 0.82)).toBeGreaterThan(60);
    expect(grey(0.6, 0.82)).toBeLessThan(120);
    for (const [x, y] of [
      [0.6, 0.2],
      [0.9, 0.5],
      [0.5, 0.5],
      [0.9, 0.82],
    ] as const)
      expect(grey(x, y)).toBeGreaterThan(220);
  });

  it('embeds the JPEG data untouched and leaves out the place where it was taken', async () => {
    const bytes = await phoneJpeg(1);
    expect(bytes.includes('Exif')).toBe(true);
    const kept = await at.keep(bytes, 'site.jpg');
    const { data, get } = pictureOf(kept.output);
    expect(readFileSync(kept.output).includes('Exif')).toBe(false);
    expect(get('Filter')).toEqual({ name: 'DCTDecode' });
    const [before, after] = await Promise.all([sharp(bytes).raw().toBuffer(), sharp(data).raw().toBuffer()]);
    expect(Buffer.compare(before, after)).toBe(0);
    const scan = Buffer.from([0xff, 0xda]);
    expect(bytes.subarray(bytes.lastIndexOf(scan))).toEqual(data.subarray(data.lastIndexOf(scan)));
  });

  it('leaves room for a margin line below a photo, whatever its shape', async () => {
    for (const [width, height] of [
      [4000, 3000],
      [3000, 4000],
      [3000, 3000],
    ] as const) {
      const bytes = await sharp({ create: { width, height, channels: 3, background: '#333' } })
        .jpeg()
        .toBuffer();
      const kept = await at.keep(bytes, 'site.jpg');
      expect(kept.rendition.pages[0]?.clearStrips[0]).toMatchObject({ y: 18, width: 300 });
    }
  });

  it('doesn\u2019t take a camera\u2019s density for a size', async () => {
    const camera = await drawnL(1800, 1200)
      .jpeg()
      .withExif({ IFD2: { FNumber: '2/1' } })
      .withMetadata({ density: 300 })
      .toBuffer();
    expect((await at.keep(camera, 'a.jpg')).rendition.pages[0]).toMatchObject({ width: 792, height: 612 });
  });
});

describe('keeping a scan', () => {
  it('gives it its true size', async () => {
    const scan = withDensity(await drawnL(1700, 2200).toColourspace('b-w').jpeg().toBuffer(), 200);
    const kept = await at.keep(scan, 'scan.jpg');
    expect(kept.rendition.pages[0]).toMatchObject({ width: 612, height: 792 });
    expect(kept.rendition.recipe).toContain('true size');
    expect(pictureOf(kept.output).get('ColorSpace')).toEqual({ name: 'DeviceGray' });
  });

  it('takes an absurd density for none', async () => {
    const scan = withDensity(await drawnL().jpeg().toBuffer(), 9000);
    expect((await at.keep(scan, 'scan.jpg')).rendition.recipe).toContain('fitted on letter');
  });
});

describe('keeping other pictures', () => {
  it('turns printing colours into screen colours and says so', async () => {
    const cmyk = await drawnL().toColourspace('cmyk').jpeg().toBuffer();
    const kept = await at.keep(cmyk, 'print.jpg');
    expect(kept.rendition.recipe).toContain('encoded anew');
    expect(kept.rendition.notes.join()).toContain('screen colours');
  });

  it('carries the colour profile of a JPEG', async () => {
    const wide = await drawnL().jpeg().withIccProfile('p3').toBuffer();
    const kept = await at.keep(wide, 'wide.jpg');
    expect(pictureOf(kept.output).get('ColorSpace')).toEqual([{ name: 'ICCBased' }, { ref: 6 }]);
  });

  it.each([
    ['plain', async () => drawnL().png().toBuffer(), 3],
    ['grey', async () => drawnL().toColourspace('b-w').png().toBuffer(), 1],
    ['with 16 bits', async () => drawnL().toColourspace('rgb16').png().toBuffer(), 3],
    ['with a palette', async () => drawnL().png({ palette: true, colours: 16 }).toBuffer(), 3],
    ['interlaced', async () => drawnL().png({ progressive: true }).toBuffer(), 3],
  ] as const)('keeps every pixel of a PNG %s', async (_what, make, components) => {
    const bytes = await make();
    const kept = await at.keep(bytes, 'plot.png');
    const { get } = pictureOf(kept.output);
    expect(get('ColorSpace')).toEqual({ name: components === 1 ? 'DeviceGray' : 'DeviceRGB' });
    const { raster } = await sightOf(kept.output);
    expect(raster.pixels.filter((value) => value < 60).length).toBeGreaterThan(5000);
  });

  it('stores PNG pixels without loss, by another decoder\u2019s word', async () => {
    const kept = await at.keep(await drawnL().png().toBuffer(), 'plot.png');
    const rows = inflateSync(pictureOf(kept.output).data);
    expect(unfiltered(rows, 600, 400)).toEqual(letterL());
  });

  it('lays what is transparent on white', async () => {
    const clear = await sharp({
      create: { width: 400, height: 400, channels: 4, background: { r: 0, g: 0, b: 0, alpha: 0 } },
    })
      .png()
      .toBuffer();
    const kept = await at.keep(clear, 'clear.png');
    expect((await sightOf(kept.output)).raster.pixels.every((value) => value === 255)).toBe(true);
  });

  it('gives the same bytes each time', async () => {
    const bytes = await drawnL().png().toBuffer();
    expect((await at.keep(bytes, 'a.png')).sha256).toBe((await at.keep(bytes, 'b.png')).sha256);
  });

  it.each([
    ['a JPEG that breaks off', async () => (await drawnL().jpeg().toBuffer()).subarray(0, 3000), 'a.jpg'],
    [
      'a PNG that breaks off',
      async () => (await drawnL().png({ compressionLevel: 0 }).toBuffer()).subarray(0, 90_000),
      'a.png',
    ],
    ['a JPEG of nothing but its first bytes', async () => Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0, 16]), 'a.jpg'],
    ['a PNG that claims more pixels than any sheet has', async () => hugePng(), 'a.png'],
  ] as const)('refuses %s', async (_what, make, name) => {
    await expect(at.keep(await make(), name)).rejects.toMatchObject({ code: 'file refused', about: name });
  });
});

/** Undoes the row filters of the W3C PNG specification, section 9. */
function unfiltered(rows: Buffer, width: number, height: number): Buffer {
  const stride = width * 3;
  const out = Buffer.alloc(stride * height);
  for (let y = 0; y < height; y += 1) {
    const filter = rows[y * (stride + 1)];
    for (let x = 0; x < stride; x += 1) {
      const a = x >= 3 ? (out[y * stride + x - 3] ?? 0) : 0;
      const b = y > 0 ? (out[(y - 1) * stride + x] ?? 0) : 0;
      const c = x >= 3 && y > 0 ? (out[(y - 1) * stride + x - 3] ?? 0) : 0;
      const [pa, pb, pc] = [Math.abs(b - c), Math.abs(a - c), Math.abs(a + b - 2 * c)];
      const paeth = pa <= pb && pa <= pc ? a : pb <= pc ? b : c;
      const guess = [0, a, b, (a + b) >> 1, paeth][filter ?? 0] ?? 0;
      out[y * stride + x] = ((rows[y * (stride + 1) + 1 + x] ?? 0) + guess) & 0xff;
    }
  }
  return out;
}

/** A PNG header that claims 60,000 x 60,000 pixels, with hardly any data. */
async function hugePng(): Promise<Buffer> {
  const bytes = await drawnL().png().toBuffer();
  bytes.writeUInt32BE(60_000, 16);
  bytes.writeUInt32BE(60_000, 20);
  bytes.writeUInt32BE(crc32(bytes.subarray(12, 29)), 29);
  return bytes;
}
