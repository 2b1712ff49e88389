import { readFileSync, writeFileSync } from 'node:fs';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import sharp from 'sharp';
import { afterAll, describe, expect, it } from 'vitest';
import { keepFile } from '../../../core/intake/keep-file.ts';
import type { BlackOut } from '../../../core/intake/rendition-model.ts';
import { bench, sightOf } from '../keeping.ts';
import { onePage, pdfOf, streamObject, throughQpdf, words } from '../make-pdf.ts';
import { drawnL } from '../make-pictures.ts';
import { sealed, signerOf } from '../seals/make-sealed.ts';

const at = bench();
afterAll(() => at.clear());

let count = 0;
async function blackened(bytes: Uint8Array, blackOut: readonly BlackOut[], name = 'paper.pdf') {
  count += 1;
  const [input, output] = [at.path(`black-${count}`), at.path(`black-${count}.kept`)];
  writeFileSync(input, bytes);
  const done = await keepFile({ job: 'keep', input, name, output, recipe: { blackOut } });
  return { ...done, output };
}

/** All bytes of a file with every stream unpacked, by another program than the one that wrote it. */
async function unpackedBytes(path: string): Promise<string> {
  const bytes = await throughQpdf(readFileSync(path), ['--qdf', '--object-streams=disable']);
  return bytes.toString('latin1');
}

/** Text and annotations as a reader sees them that had no part in making the file. */
async function readBy(path: string) {
  const opening = getDocument({ data: new Uint8Array(readFileSync(path)), verbosity: 0 });
  const file = await opening.promise;
  const pages = [];
  for (let page = 1; page <= file.numPages; page += 1) {
    const one = await file.getPage(page);
    const { items } = await one.getTextContent();
    const text = items.map((item) => ('str' in item ? item.str : '')).join(' ');
    pages.push({ text: text.trim(), annotations: (await one.getAnnotations()).length });
  }
  const told = { pages, attachments: await file.getAttachments(), outline: await file.getOutline() };
  await opening.destroy();
  return told;
}

/** The line at (100, 400), 18 points high. */
const line = { page: 0, place: { x: 95, y: 392, width: 300, height: 24 } };
const secret = '123-45-6789';

describe('blacking out a place', () => {
  it('takes away the words beneath it, in the file and for every reader', async () => {
    const content = `${words(`Number ${secret}`)}${words('Parcel 041-22-0070', 100, 500)}`;
    const { output, rendition } = await blackened(onePage({ content }), [line]);
    expect(await unpackedBytes(output)).not.toContain(secret);
    expect((await readBy(output)).pages).toEqual([{ text: '', annotations: 0 }]);
    expect(rendition.pages[0]?.text).toBe('Parcel 041-22-0070');
    const { raster } = await sightOf(output);
    const row = (y: number) => raster.pixels.subarray((792 - y) * 612 + 96, (792 - y) * 612 + 390);
    for (const y of [395, 400, 405, 414]) expect(Math.max(...row(y))).toBeLessThan(10);
    // The other line still shows.
    expect(Math.min(...row(505))).toBeLessThan(120);
    expect(rendition.notes.at(-1)).toMatch(/Blacked out on page 1: what lay beneath is not in these pages/);
  });

  it('leaves nothing of it in fields, notes, attachments, outlines, names and metadata', async () => {
    const bytes = onePage({
      content: words('Deed'),
      page: `/MediaBox [ 0 0 612 792 ] /Annots [ 6 0 R 7 0 R 8 0 R ] /Metadata 9 0 R /PieceInfo << /X << /Private (${secret}) >> >>`,
      catalog: `/AcroForm << /Fields [ 6 0 R ] /DA (/F1 12 Tf) /DR << /Font << /F1 5 0 R >> >> >> /Metadata 9 0 R /Outlines 10 0 R /Names << /EmbeddedFiles << /Names [ (a) 12 0 R ] >> /Dests << /Names [ (${secret}) [ 3 0 R /Fit ] ] >> >> /StructTreeRoot << /Type /StructTreeRoot /K << /S /P /Alt (${secret}) /Pg 3 0 R >> >>`,
      more: {
        6: `<< /Type /Annot /Subtype /Widget /FT /Tx /T (ssn) /V (${secret}) /DA (/F1 12 Tf) /Rect [ 100 390 300 415 ] /F 4 /P 3 0 R >>`,
        7: `<< /Type /Annot /Subtype /Text /Contents (${secret}) /Rect [ 10 10 30 30 ] /P 3 0 R >>`,
        8: `<< /Type /Annot /Subtype /FileAttachment /FS 12 0 R /Rect [ 40 10 60 30 ] /P 3 0 R >>`,
        9: streamObject(`<x:xmpmeta>${secret}</x:xmpmeta>`, '/Type /Metadata /Subtype /XML'),
        10: '<< /Type /Outlines /First 11 0 R /Last 11 0 R /Count 1 >>',
        11: `<< /Title (${secret}) /Parent 10 0 R /Dest [ 3 0 R /Fit ] >>`,
        12: '<< /Type /Filespec /F (a.txt) /EF << /F 13 0 R >> >>',
        13: streamObject(secret),
        14: `<< /Title (${secret}) >>`,
      },
    })
      .toString('latin1')
      .replace('/Root 1 0 R', '/Info 14 0 R /Root 1 0 R');
    const { output } = await blackened(Buffer.from(bytes, 'latin1'), [line]);
    expect(await unpackedBytes(output)).not.toContain(secret);
    expect(await readBy(output)).toEqual({ pages: [{ text: '', annotations: 0 }], attachments: null, outline: null });
  });

  it('paints the dots of a scan over and drops the scan itself', async () => {
    const scan = await sharp(await drawnL(850, 1100).png().toBuffer())
      .jpeg()
      .toBuffer();
    const page = onePage({
      content: 'q 612 0 0 792 0 0 cm /Im0 Do Q',
      resources: '/XObject << /Im0 6 0 R >>',
      more: {
        6: streamObject(
          scan,
          '/Type /XObject /Subtype /Image /Width 850 /Height 1100 /BitsPerComponent 8 /ColorSpace /DeviceRGB /Filter /DCTDecode',
        ),
      },
    });
    // Over the red foot of the L.
    const { output, rendition } = await blackened(page, [
      { page: 0, place: { x: 40, y: 60, width: 420, height: 150 } },
    ]);
    expect(readFileSync(output).includes(scan.subarray(400, 900))).toBe(false);
    const { raster } = await sightOf(output);
    const grey = (x: number, y: number) => raster.pixels[(792 - y) * 612 + x] ?? 255;
    expect([grey(60, 80), grey(300, 140), grey(440, 200)].every((value) => value < 12)).toBe(true);
    expect(grey(500, 400)).toBeGreaterThan(220);
    expect(rendition.recipe).toMatch(/blacked out/);
  });

  it('works on a photo, and on what the page shows turned and cropped', async () => {
    const photo = await blackened(
      await drawnL().jpeg().toBuffer(),
      [{ page: 0, place: { x: 0, y: 0, width: 792, height: 612 } }],
      'lot.jpg',
    );
    expect((await sightOf(photo.output)).raster.pixels.every((value) => value < 12)).toBe(true);
    const turned = onePage({
      page: '/MediaBox [ 0 0 612 792 ] /CropBox [ 50 300 562 500 ] /Rotate 90',
      content: words(secret),
    });
    // As seen: 200 wide, 512 high; the line runs downwards, 100 - 50 from the left edge before turning.
    const { output, rendition } = await blackened(turned, [
      { page: 0, place: { x: 90, y: 300, width: 40, height: 212 } },
    ]);
    expect(rendition.pages[0]).toMatchObject({ width: 200, height: 512, text: '' });
    expect(await unpackedBytes(output)).not.toContain(secret);
  });
});

/** Three pages; pages 1 and 3 show what is given, page 2 has a link, a field and words. */
function three(resources: string, first: string, third: string): Buffer {
  return pdfOf({
    1: '<< /Type /Catalog /Pages 2 0 R /AcroForm << /Fields [ 20 0 R 21 0 R ] /DA (/F1 12 Tf) /DR << /Font << /F1 5 0 R >> >> >> >>',
    2: `<< /Type /Pages /Kids [ 3 0 R 4 0 R 6 0 R ] /Count 3 /MediaBox [ 0 0 612 792 ] /Resources << /Font << /F1 5 0 R >> ${resources} >> >>`,
    3: '<< /Type /Page /Parent 2 0 R /Contents 10 0 R /Annots [ 20 0 R ] >>',
    4: '<< /Type /Page /Parent 2 0 R /Contents 11 0 R /Annots [ 21 0 R 22 0 R ] >>',
    5: '<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>',
    6: '<< /Type /Page /Parent 2 0 R /Contents 12 0 R >>',
    10: streamObject(first),
    11: streamObject(words('Second sheet')),
    12: streamObject(third),
    20: `<< /Type /Annot /Subtype /Widget /FT /Tx /T (one) /V (${secret}) /DA (/F1 12 Tf) /Rect [ 100 300 300 330 ] /F 4 /P 3 0 R >>`,
    21: '<< /Type /Annot /Subtype /Widget /FT /Tx /T (two) /V (stays) /DA (/F1 12 Tf) /Rect [ 100 300 300 330 ] /F 4 /P 4 0 R >>',
    22: '<< /Type /Annot /Subtype /Link /Rect [ 0 0 90 90 ] /A << /S /GoTo /D [ 6 0 R /Fit ] >> /P 4 0 R >>',
    30: streamObject(
      `BT /F1 12 Tf 20 20 Td (${secret}) Tj ET`,
      '/Type /XObject /Subtype /Form /BBox [ 0 0 612 792 ] /Resources << /Font << /F1 5 0 R >> >>',
    ),
  });
}

describe('blacking out one page of several', () => {
  it('leaves the others as they are: text, links, fields', async () => {
    const { output, rendition } = await blackened(three('', words(secret), words('Third sheet')), [line]);
    const { pages } = await readBy(output);
    expect(pages.map(({ text, annotations }) => [text, annotations])).toEqual([
      ['', 0],
      ['Second sheet', 2],
      ['Third sheet', 0],
    ]);
    expect(rendition.pages.map(({ text }) => text)).toEqual([
      '',
      expect.stringContaining('Second sheet'),
      'Third sheet',
    ]);
    const bytes = await unpackedBytes(output);
    expect(bytes).not.toContain(secret);
    expect(bytes).toContain('(stays)');
  });

  it('drops a form that only the blacked-out page draws, though all pages name it', async () => {
    const { output, rendition } = await blackened(three('/XObject << /Fm 30 0 R >>', '/Fm Do', words('Third sheet')), [
      { page: 0, place: { x: 10, y: 10, width: 200, height: 30 } },
    ]);
    expect(await unpackedBytes(output)).not.toContain(secret);
    expect((await readBy(output)).pages[2]?.text).toBe('Third sheet');
    expect(rendition.notes.at(-1)).not.toMatch(/became a picture too/);
  });

  it('makes a picture of another page that draws the same part, and says so', async () => {
    const { output, rendition } = await blackened(
      three('/XObject << /Fm 30 0 R >>', '/Fm Do', 'q 0 0 1 1 re W n /Fm Do Q'),
      [{ page: 0, place: { x: 10, y: 10, width: 200, height: 30 } }],
    );
    expect(await unpackedBytes(output)).not.toContain(secret);
    expect(rendition.notes.join(' ')).toMatch(/Page 3 became a picture too/);
    expect((await readBy(output)).pages[1]?.text).toBe('Second sheet');
  });

  it('gives the same bytes each time, and others for another place', async () => {
    const bytes = three('', words(secret), words('Third sheet'));
    const [one, two] = [await blackened(bytes, [line]), await blackened(bytes, [line])];
    expect(one.sha256).toBe(two.sha256);
    const other = await blackened(bytes, [{ ...line, page: 2 }]);
    expect(other.rendition.recipe).not.toBe(one.rendition.recipe);
    expect(other.rendition.source).toBe(one.rendition.source);
  });

  it('is no seal any more', async () => {
    const { rendition } = await blackened(await sealed(onePage(), signerOf('Ana Ruiz, PLS')), [line]);
    expect(rendition).toMatchObject({ sealed: false });
    expect(rendition.seals).toBeUndefined();
    expect(rendition.notes.join(' ')).toMatch(/no seal any more/);
  });

  it.each([
    ['on a page that is not there', { page: 3, place: line.place }],
    ['beside the page', { page: 0, place: { x: 700, y: 10, width: 50, height: 50 } }],
    ['without a width', { page: 0, place: { x: 10, y: 10, width: 0, height: 50 } }],
  ])('refuses a place %s', async (_what, place) => {
    await expect(blackened(three('', '', ''), [place])).rejects.toMatchObject({ code: 'wrong use' });
  });
});
