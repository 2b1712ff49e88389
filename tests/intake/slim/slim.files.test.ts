import { readFileSync, statSync } from 'node:fs';
import { deflateSync } from 'node:zlib';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { slimFile } from '../../../core/intake/slim/slim-file.ts';
import { secondSight } from '../../../core/reader/second-reader.ts';
import { bench, sightOf } from '../keeping.ts';
import { pdfOf, streamObject } from '../make-pdf.ts';
import { letterL } from '../make-pictures.ts';

const at = bench();
afterAll(() => at.clear());

let count = 0;
async function slimmed(input: string, most: number, sealed = false) {
  count += 1;
  const output = at.path(`slim-${count}`);
  return { ...(await slimFile({ job: 'slim', input, name: 'scan.pdf', output, most, sealed })), output };
}

/** A grainy scan at 300 dots an inch of part of a sheet: what an office copier makes of paper. */
async function grainy(seed: number): Promise<Buffer> {
  const [width, height] = [1275, 1650];
  const lines = Array.from(
    { length: 20 },
    (_, row) =>
      `<text x="100" y="${150 + row * 70}" font-family="DejaVu Sans, sans-serif" font-size="36">Setback ${seed}-${row} feet</text>`,
  ).join('');
  const ink = Buffer.from(`<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}">${lines}</svg>`);
  // A fixed chain of numbers, so that the test is the same each time.
  const grain = Buffer.alloc(width * height * 3);
  let state = seed * 2654435761;
  for (let dot = 0; dot < grain.length; dot += 3) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    grain.fill(228 + (state >>> 28), dot, dot + 3);
  }
  return await sharp(grain, { raw: { width, height, channels: 3 } })
    .composite([{ input: ink }])
    .jpeg({ quality: 96 })
    .toBuffer();
}

const picture = (data: Buffer, more: string) =>
  streamObject(data, `/Type /XObject /Subtype /Image /Width 1275 /Height 1650 /BitsPerComponent 8 ${more}`);
const fullPage = 'q 612 0 0 792 0 0 cm /Im0 Do Q\n';

/** A page that shows picture `image`; content as given. */
function book(pages: readonly { readonly content: string; readonly image: Buffer }[]): Buffer {
  const objects = pages.flatMap(({ content, image }, index): readonly (readonly [number, string | Buffer])[] => [
    [
      10 + index * 3,
      `<< /Type /Page /Parent 2 0 R /Contents ${11 + index * 3} 0 R /Resources << /Font << /F1 5 0 R >> /XObject << /Im0 ${12 + index * 3} 0 R >> >> >>`,
    ],
    [11 + index * 3, streamObject(content)],
    [12 + index * 3, image],
  ]);
  return pdfOf({
    1: '<< /Type /Catalog /Pages 2 0 R >>',
    2: `<< /Type /Pages /Kids [ ${pages.map((_, index) => `${10 + index * 3} 0 R`).join(' ')} ] /Count ${pages.length} /MediaBox [ 0 0 612 792 ] >>`,
    5: '<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>',
    ...Object.fromEntries(objects),
  });
}

const jpegKeys = '/ColorSpace /DeviceRGB /Filter /DCTDecode';
const drawing = `${fullPage}${Array.from({ length: 100 }, (_, line) => `50 ${60 + line * 6} m 550 ${60 + line * 6} l S`).join('\n')}\n`;
/** What a reading machine hides behind a scan. */
const hidden = `${fullPage}BT 3 Tr /F1 12 Tf 72 700 Td (Setback fifteen feet) Tj ET\n`;

let scan: string;
let drawn: Buffer;

beforeAll(async () => {
  drawn = await grainy(3);
  const kept = await at.keep(
    book([
      { content: fullPage, image: picture(await grainy(1), jpegKeys) },
      { content: hidden, image: picture(await grainy(2), jpegKeys) },
      { content: drawing, image: picture(drawn, jpegKeys) },
    ]),
  );
  scan = kept.output;
});

describe('slimming a scan', () => {
  it('presses its pictures just as far as the limit asks, tells each page, and keeps text and sizes', async () => {
    const before = statSync(scan).size;
    const done = await slimmed(scan, Math.round(before * 0.7));
    expect(done).toMatchObject({ before, fits: true, after: statSync(done.output).size });
    expect(done.after).toBeLessThan(before * 0.7);
    expect(done.recipe).toMatch(/^slim\/1: pictures at \d+ dots an inch, JPEG \d+$/);
    const [first, second, third] = done.pages;
    expect(first?.after).toBeLessThan((first?.before ?? 0) * 0.6);
    expect(second?.after).toBeLessThan((second?.before ?? 0) * 0.6);
    expect(third?.after).toBe(third?.before);
    expect(done.pages.reduce((sum, { after }) => sum + after, 0)).toBeLessThan(done.after);
    expect((await sightOf(done.output, 1)).text).toBe('Setback fifteen feet');
    // By a reader that had no part in it.
    expect(await secondSight(done.output)).toEqual(await secondSight(scan));
  });

  it('never touches a drawing, whatever lies behind it', async () => {
    const done = await slimmed(scan, 1000);
    expect(readFileSync(done.output).includes(drawn)).toBe(true);
    expect(done.notes.join(' ')).toMatch(/1 of 3 pages were left as they are/);
  });

  it('says so where the limit can not be reached, and gives the smallest that is still legible', async () => {
    const done = await slimmed(scan, 1000);
    expect(done.fits).toBe(false);
    expect(done.after).toBeLessThan(done.before);
    expect(done.notes.at(-1)).toMatch(/still more than 0.0 MB: hand it in as several files/);
  });

  it('changes nothing where it fits already', async () => {
    const done = await slimmed(scan, 100_000_000);
    expect(readFileSync(done.output).equals(readFileSync(scan))).toBe(true);
    expect(done).toMatchObject({ fits: true, recipe: 'slim/1: nothing pressed' });
  });

  it('gives the same bytes each time', async () => {
    const most = Math.round(statSync(scan).size * 0.6);
    expect((await slimmed(scan, most)).sha256).toBe((await slimmed(scan, most)).sha256);
  });

  it('refuses a sealed paper', async () => {
    await expect(slimmed(scan, 1000, true)).rejects.toMatchObject({
      code: 'file refused',
      message: expect.stringMatching(/carries a seal/),
    });
  });
});

describe('pictures in other packings', () => {
  it('presses rows with and without filters, and leaves two-tone pictures, masks and palettes', async () => {
    const dots = await sharp(await grainy(4))
      .raw()
      .toBuffer();
    const twoTone = deflateSync(Buffer.alloc(Math.ceil(1275 / 8) * 1650, 0x5a));
    const palette = deflateSync(Buffer.alloc(1275 * 1650, 1));
    const kept = await at.keep(
      book([
        { content: fullPage, image: picture(deflateSync(dots), '/ColorSpace /DeviceRGB /Filter /FlateDecode') },
        {
          content: fullPage,
          image: streamObject(
            twoTone,
            '/Type /XObject /Subtype /Image /Width 1275 /Height 1650 /BitsPerComponent 1 /ColorSpace /DeviceGray /Filter /FlateDecode',
          ),
        },
        {
          content: fullPage,
          image: picture(palette, '/ColorSpace [ /Indexed /DeviceRGB 1 <000000ffffff> ] /Filter /FlateDecode'),
        },
      ]),
    );
    const done = await slimmed(kept.output, 1000);
    const [plain, fax, indexed] = done.pages;
    expect(plain?.after).toBeLessThan((plain?.before ?? 0) / 3);
    expect(fax?.after).toBe(fax?.before);
    expect(indexed?.after).toBe(indexed?.before);
  });

  it('presses a kept PNG photo; its page looks the same', async () => {
    const png = await sharp(letterL(1500, 1000), { raw: { width: 1500, height: 1000, channels: 3 } })
      .composite([
        {
          input: await sharp(await grainy(5))
            .resize(700, 900)
            .png()
            .toBuffer(),
          left: 700,
          top: 50,
        },
      ])
      .png()
      .toBuffer();
    const kept = await at.keep(png, 'site.png');
    const done = await slimmed(kept.output, Math.round(kept.bytes / 4));
    expect(done.fits).toBe(true);
    const [was, is] = [await sightOf(kept.output), await sightOf(done.output)];
    const far = [...was.raster.pixels.keys()].filter(
      (index) => Math.abs((was.raster.pixels[index] ?? 0) - (is.raster.pixels[index] ?? 0)) > 60,
    );
    expect(far.length).toBeLessThan(was.raster.pixels.length / 200);
  });
});
