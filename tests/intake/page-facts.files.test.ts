import { afterAll, describe, expect, it } from 'vitest';
import { pagesOf } from '../../core/intake/page/page-tree.ts';
import { seenFrame } from '../../core/intake/page/seen-frame.ts';
import { fileSource } from '../../core/intake/pdfium/byte-source.ts';
import { RegularFile } from '../../core/intake/regular/regular-file.ts';
import { bench, sightOf } from './keeping.ts';
import { onePage, pdfOf, streamObject, words } from './make-pdf.ts';

const at = bench();
afterAll(() => at.clear());

/** ISO 32000-1, 7.7.3.3 (Rotate, UserUnit), 14.11.2 (CropBox within MediaBox): boxes x turns x units. */
const frames = [0, 90, 180, 270, -90, 450].flatMap((rotate) =>
  [
    { media: [0, 0, 612, 792], crop: undefined, size: [612, 792] },
    { media: [0, 0, 612, 792], crop: [50, 100, 450, 700], size: [400, 600] },
    { media: [-100, -200, 512, 592], crop: undefined, size: [612, 792] },
    { media: [100, 50, 700, 850], crop: [0, 0, 500, 2000], size: [400, 800] },
    { media: [612, 792, 0, 0], crop: undefined, size: [612, 792] },
  ].flatMap((boxes) => [1, 2.5].map((unit) => ({ rotate, unit, ...boxes }))),
);

describe('the frame of a page as it is seen', () => {
  it.each(frames)('is right for turn $rotate, unit $unit, media $media, crop $crop', async (frame) => {
    const { rotate, unit, media, crop } = frame;
    const [w = 0, h = 0] = frame.size;
    const lies = Math.abs(rotate) % 180 === 90;
    const seen = { width: (lies ? h : w) * unit, height: (lies ? w : h) * unit };
    const cropText = crop === undefined ? '' : `/CropBox [ ${crop.join(' ')} ]`;
    const page = `/MediaBox [ ${media.join(' ')} ] ${cropText} /Rotate ${rotate} /UserUnit ${unit}`;
    const box = {
      left: Math.max(Math.min(media[0] ?? 0, media[2] ?? 0), crop?.[0] ?? -9999),
      bottom: Math.max(Math.min(media[1] ?? 0, media[3] ?? 0), crop?.[1] ?? -9999),
    };
    const plain = await at.keep(onePage({ page, content: `0 g ${box.left} ${box.bottom} 1 1 re f` }));
    expect(plain.rendition.pages[0]).toMatchObject(seen);

    const source = fileSource(plain.output);
    const file = new RegularFile(source);
    const [first] = pagesOf(file);
    source.close();
    const [a, b, c, d, e, f] = first === undefined ? [0, 0, 0, 0, 0, 0] : seenFrame(file, first).toPage;
    // A dark square drawn through the matrix at (20, 30) of the seen page, 100 x 50, must show exactly there.
    const mark = `q ${a} ${b} ${c} ${d} ${e} ${f} cm 0 g 20 30 100 50 re f Q`;
    const marked = await at.keep(onePage({ page, content: mark }));
    const { raster } = await sightOf(marked.output);
    const across = raster.width / seen.width;
    const down = raster.height / seen.height;
    const at2 = (x: number, y: number) =>
      raster.pixels[Math.floor((seen.height - y) * down) * raster.width + Math.floor(x * across)];
    expect([at2(30, 40), at2(110, 70), at2(30, 70), at2(110, 40)]).toEqual([0, 0, 0, 0]);
    expect([at2(10, 40), at2(130, 70), at2(60, 20), at2(60, 90)]).toEqual([255, 255, 255, 255]);
  });

  it('follows what pages inherit from the tree above them', async () => {
    const kept = await at.keep(
      pdfOf({
        1: '<< /Type /Catalog /Pages 2 0 R >>',
        2: '<< /Type /Pages /Kids [ 6 0 R 7 0 R ] /Count 2 /MediaBox [ 0 0 400 500 ] /Rotate 90 /Resources << /Font << /F1 5 0 R >> >> >>',
        3: '<< /Type /Page /Parent 6 0 R /Contents 4 0 R >>',
        4: streamObject(words()),
        5: '<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>',
        6: '<< /Type /Pages /Parent 2 0 R /Kids [ 3 0 R ] /Count 1 /CropBox [ 0 0 300 500 ] >>',
        7: '<< /Type /Page /Parent 2 0 R /Contents 4 0 R /Rotate 0 >>',
      }),
    );
    expect(kept.rendition.pages).toMatchObject([
      { page: 0, width: 500, height: 300 },
      { page: 1, width: 400, height: 500 },
    ]);
  });
});

describe('what a page\u2019s content leaves open', () => {
  it.each([
    ['q 1 0 0 1 0 0 cm', 1, 0],
    ['q q Q Q Q Q', 0, 2],
    ['(q q \\( q) Tj % q q\n/q gs', 0, 0],
    ['q BI /W 2 /H 1 /BPC 8 /CS /G ID q EI\u0001 EI Q', 0, 0],
    ['<71> Tj << /q /Q >> q', 1, 0],
  ])('counts %j', async (content, openSaves, extraRestores) => {
    const kept = await at.keep(onePage({ content: `${content}\n` }));
    expect(kept.rendition.pages[0]).toMatchObject({ openSaves, extraRestores });
  });

  it('reads content that is packed and split over several streams', async () => {
    const packed = Buffer.from(`${words()} q q`).toString('hex');
    const kept = await at.keep(
      onePage({
        page: '/MediaBox [ 0 0 612 792 ]',
        content: `${packed}>`,
        contentDict: '/Filter /ASCIIHexDecode',
      }),
    );
    expect(kept.rendition.pages[0]).toMatchObject({ openSaves: 2, text: 'Septic permit 4711' });
  });
});

describe('the places for a margin line', () => {
  it('are proved by a mark on pages whose content is unbalanced', async () => {
    const kept = await at.keep(
      onePage({ content: `q 0.5 0 0 0.5 90 90 cm ${words()} Q Q q 2 0 0 2 0 0 cm q 3 0 0 3 0 0 cm` }),
    );
    expect(kept.rendition.pages[0]).toMatchObject({ openSaves: 2, extraRestores: 1 });
    expect(kept.rendition.pages[0]?.clearStrips.length).toBeGreaterThan(2);
  });

  it('are none where the content ends within a string, since a mark would be swallowed', async () => {
    const kept = await at.keep(onePage({ content: `${words()} BT /F1 9 Tf (never closed` }));
    expect(kept.rendition.pages[0]?.clearStrips).toEqual([]);
  });

  it('are none where a blank annotation covers them', async () => {
    const cover = onePage({
      page: '/MediaBox [ 0 0 612 792 ] /Annots [ 6 0 R ]',
      more: {
        6: '<< /Type /Annot /Subtype /Square /Rect [ 0 0 612 792 ] /F 4 /AP << /N 7 0 R >> >>',
        7: streamObject('1 g 0 0 612 792 re f', '/Type /XObject /Subtype /Form /BBox [ 0 0 612 792 ]'),
      },
    });
    expect((await at.keep(cover)).rendition.pages[0]?.clearStrips).toEqual([]);
  });

  it('are still found where the page narrows the clip for good and the mark gets out of it', async () => {
    const kept = await at.keep(onePage({ content: `100 300 300 300 re W n ${words()}` }));
    expect(kept.rendition.pages[0]?.clearStrips.length).toBeGreaterThan(2);
  });

  it('stand left of a title block at the bottom of a drawing sheet', async () => {
    const frame = '1 w 30 30 2532 1668 re S 1962 30 600 400 re S';
    const block = '0 g 1962 30 600 200 re f';
    const kept = await at.keep(onePage({ page: '/MediaBox [ 0 0 2592 1728 ]', content: `${frame} ${block}` }));
    const [first] = kept.rendition.pages[0]?.clearStrips ?? [];
    expect(first).toBeDefined();
    expect((first?.x ?? 0) + (first?.width ?? 0)).toBeLessThanOrEqual(1962);
    expect(first?.y).toBeGreaterThan(30);
    expect(first?.y).toBeLessThan(100);
  });
});

describe('the bytes of a page', () => {
  it('split what two pages share and give each its own', async () => {
    const big = streamObject(Buffer.alloc(30_000, 0x20));
    const kept = await at.keep(
      pdfOf({
        1: '<< /Type /Catalog /Pages 2 0 R >>',
        2: '<< /Type /Pages /Kids [ 3 0 R 4 0 R ] /Count 2 /MediaBox [ 0 0 612 792 ] >>',
        3: '<< /Type /Page /Parent 2 0 R /Contents [ 5 0 R 6 0 R ] >>',
        4: '<< /Type /Page /Parent 2 0 R /Contents 5 0 R /Annots [ << /Type /Annot /Subtype /Link /Rect [ 0 0 9 9 ] /Dest [ 3 0 R /Fit ] >> ] >>',
        5: big,
        6: big,
      }),
    );
    const [one, two] = kept.rendition.pages;
    expect(one?.bytes).toBeGreaterThan(45_000);
    expect(one?.bytes).toBeLessThan(45_600);
    expect(two?.bytes).toBeGreaterThan(15_000);
    expect(two?.bytes).toBeLessThan(15_600);
    expect((one?.bytes ?? 0) + (two?.bytes ?? 0)).toBeLessThan(kept.bytes);
  });
});
