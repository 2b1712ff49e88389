import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PDFDocument } from 'pdf-lib';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { LetterReader } from '../../../core/intake/ocr/letter-reader.ts';
import { readPages } from '../../../core/intake/ocr/read-pages.ts';
import { onPage, type PageText, plainText } from '../../../core/intake/reading/page-text.ts';
import { openWorkers } from '../../../core/workers/process-port.ts';
import { onePage, words } from '../make-pdf.ts';

const folder = mkdtempSync(join(tmpdir(), 'lotfile-reading-'));
let reader: LetterReader;
beforeAll(async () => {
  reader = await LetterReader.open();
});
afterAll(async () => {
  await reader.close();
  rmSync(folder, { recursive: true, force: true });
});

let count = 0;
function fileOf(bytes: Uint8Array): string {
  count += 1;
  const path = join(folder, `${count}.pdf`);
  writeFileSync(path, bytes);
  return path;
}

const read = (bytes: Uint8Array) => readPages(fileOf(bytes), 'paper.pdf', { reader: async () => reader });

/** A letter-size sheet with these lines, as a scanner at 150 dpi sees it, turned by `degrees` clockwise. */
async function scanOf(lines: readonly string[], degrees = 0, extra = ''): Promise<Uint8Array> {
  const text = lines
    .map(
      (line, at) =>
        `<text x="130" y="${260 + at * 60}" font-family="DejaVu Sans, sans-serif" font-size="30">${line}</text>`,
    )
    .join('');
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="1275" height="1650"><rect width="1275" height="1650" fill="#f6f6f4"/>${text}${extra}</svg>`;
  const jpeg = await sharp(Buffer.from(svg))
    .rotate(degrees, { background: '#f6f6f4' })
    .jpeg({ quality: 80 })
    .toBuffer();
  const { width = 1, height = 1 } = await sharp(jpeg).metadata();
  const file = await PDFDocument.create({ updateMetadata: false });
  const size = degrees % 90 === 0 ? ([width * 0.48, height * 0.48] as const) : ([612, 792] as const);
  const page = file.addPage([...size]);
  page.drawImage(await file.embedJpg(jpeg), { x: 0, y: 0, width: size[0], height: size[1] });
  return file.save({ useObjectStreams: false });
}

const lines = [
  'BRACKENFOLD COUNTY',
  'Septic permit EH-26-04711',
  'Date issued: March 14, 2026',
  'Good through: September 14, 2027',
  'The system shall be installed as drawn on the sketch.',
];

function first(pages: readonly PageText[]): PageText {
  const [page] = pages;
  if (page === undefined) throw new Error('no page was read');
  return page;
}

describe('reading the words of a page', () => {
  it('takes the text layer where there is one, each word where it stands on the page as seen', async () => {
    const page = first(await read(onePage({ content: words('Septic permit 4711 of county Vellmoor', 100, 400) })));
    expect(page.source).toBe('text layer');
    expect(plainText(page)).toBe('Septic permit 4711 of county Vellmoor');
    const box = page.lines[0]?.words[0]?.box;
    expect(Math.abs((box?.x ?? 0) - 100)).toBeLessThan(1.5);
    expect(box?.y).toBeGreaterThan(393);
    expect(box?.y).toBeLessThan(402);
  });

  it('follows a turned page: the words stand where a person sees them', async () => {
    const turned = '/MediaBox [ 0 0 612 792 ] /Rotate 90';
    const page = first(
      await read(onePage({ page: turned, content: words('Septic permit 4711 of county Vellmoor', 100, 400) })),
    );
    expect([page.width, page.height]).toEqual([792, 612]);
    // 100 from the left and 400 up becomes 400 from the left and 612 - 100 up once turned clockwise.
    const box = page.lines[0]?.words[0]?.box;
    expect(box?.x).toBeGreaterThan(393);
    expect(box?.x).toBeLessThan(420);
    expect(Math.abs((box?.y ?? 0) + (box?.height ?? 0) - 512)).toBeLessThan(1.5);
  });

  it('reads what was typed into the fields of a form', async () => {
    const form = await PDFDocument.create({ updateMetadata: false });
    const sheet = form.addPage([612, 792]);
    sheet.drawText('Application to build a dwelling. Address of the work:', { x: 60, y: 700, size: 11 });
    const field = form.getForm().createTextField('address');
    field.setText('410 Sawpit Road');
    field.addToPage(sheet, { x: 60, y: 660, width: 300, height: 22 });
    const page = first(await read(await form.save()));
    expect(plainText(page)).toContain('410 Sawpit Road');
    expect(page.source).toBe('text layer');
  });

  it('reads a scan, and looks twice at every figure', async () => {
    const page = first(await read(await scanOf(lines)));
    expect(page.source).toBe('picture');
    expect(plainText(page)).toContain('Good through: September 14, 2027');
    const number = page.lines.flatMap((line) => line.words).find((word) => word.text === 'EH-26-04711');
    expect(number?.again).toBe('EH-26-04711');
    // 130 + the words before it, at 150 dpi: half a point for each pixel, from the lower left.
    expect(number?.box.y).toBeCloseTo(792 - (320 / 150) * 72, -1);
  });

  it.each([90, 180, 270])('reads a sheet that was scanned turned by %i degrees', async (degrees) => {
    const page = first(await read(await scanOf(lines, degrees)));
    expect(page.turn).toBe(360 - degrees);
    expect(plainText(page)).toContain('Date issued: March 14, 2026');
    // Back on the page as seen, every word lies within it.
    for (const word of page.lines.flatMap((line) => line.words)) {
      const box = onPage(page, word.box);
      expect(box.x).toBeGreaterThan(0);
      expect(box.x + box.width).toBeLessThan(page.width);
      expect(box.y).toBeGreaterThan(0);
      expect(box.y + box.height).toBeLessThan(page.height);
    }
  });

  it('levels a sheet that lay askew, so that label and value stay on one line', async () => {
    const wide = '<text x="850" y="560" font-family="DejaVu Sans, sans-serif" font-size="30">Bedrooms: 3</text>';
    const page = first(await read(await scanOf([...lines, 'Parcel: 041-22-0070'], 2.2, wide)));
    expect(Math.abs(page.lean)).toBeGreaterThan(1.5);
    expect(plainText(page)).toMatch(/Parcel: 041-22-0070 Bedrooms: 3/);
  });

  it('reads label and value across a row of dots', async () => {
    const dots = `<text x="130" y="700" font-family="DejaVu Sans, sans-serif" font-size="30">Expires ${'.'.repeat(40)} 07/10/2026</text>`;
    expect(plainText(first(await read(await scanOf(lines, 0, dots))))).toMatch(/Expires 07\/10\/2026/);
  });

  it('reads what stands in the boxes of a ruled form', async () => {
    const boxes = [0, 1, 2, 3]
      .map((at) => {
        const [x, y] = [130 + (at % 2) * 500, 640 + Math.floor(at / 2) * 110];
        const [label, value] = [
          ['Permit No.', 'BP26-31144'],
          ['Date issued', '12/04/2024'],
          ['Parcel', '26-8258-332-0'],
          ['Expires', '12/04/2025'],
        ][at] ?? ['', ''];
        return `<rect x="${x}" y="${y}" width="500" height="110" fill="none" stroke="black" stroke-width="2"/><text x="${x + 10}" y="${y + 30}" font-family="DejaVu Sans, sans-serif" font-size="20">${label}</text><text x="${x + 14}" y="${y + 85}" font-family="DejaVu Sans, sans-serif" font-size="28">${value}</text>`;
      })
      .join('');
    const text = plainText(first(await read(await scanOf(lines, 0, boxes))));
    expect(text).toMatch(
      /Permit No\. Date issued\nBP26-31144 12\/04\/2024\nParcel Expires\n26-8258-332-0 12\/04\/2025/,
    );
  });

  it('says nothing of a blank page', async () => {
    expect(first(await read(await scanOf([]))).lines).toEqual([]);
  });

  it('stops between pages when asked', async () => {
    const stop = new AbortController();
    stop.abort();
    await expect(readPages(fileOf(onePage()), 'deed.pdf', { signal: stop.signal })).rejects.toMatchObject({
      code: 'stopped',
    });
  });

  it('refuses what is no PDF with a sentence', async () => {
    await expect(read(Buffer.from('no pdf'))).rejects.toMatchObject({ code: 'file refused', about: 'paper.pdf' });
  });

  it('looks once more for capitals at numbers of papers alone: no year, amount, date, ordinal or dimension', async () => {
    const page = first(
      await read(await scanOf(['Joists 2x10 of 2026', 'Paid 1250.00 on the 12th', 'No. EH-26-04711'])),
    );
    const looked = page.lines.flatMap(({ words: each }) => each.filter(({ code }) => code !== undefined));
    expect(plainText(page)).toContain('Paid 1250.00 on the 12th');
    expect(looked.map(({ text }) => text)).toEqual(['EH-26-04711']);
  });
});

describe('reading through worker processes', () => {
  it('gives the words back, tells of each page, and goes on keeping files', async () => {
    const port = openWorkers({ count: 1 });
    try {
      const heard: string[] = [];
      const input = fileOf(await scanOf(lines));
      const { pages } = await port.read(
        { job: 'read', input, name: 'septic.pdf' },
        { onProgress: ({ what, done, of }) => heard.push(`${what} ${done}/${of}`) },
      );
      expect(plainText(first(pages))).toContain('Septic permit EH-26-04711');
      expect(heard).toEqual(['Reading septic.pdf 0/1', 'Reading septic.pdf 1/1']);
      const kept = await port.keep({
        job: 'keep',
        input: fileOf(onePage()),
        name: 'deed.pdf',
        output: join(folder, 'out'),
      });
      expect(kept.rendition.pages).toHaveLength(1);
    } finally {
      await port.close();
    }
  });

  it('ends at once when the person stops it', async () => {
    const port = openWorkers({ count: 1 });
    try {
      const stop = new AbortController();
      const input = fileOf(await scanOf(lines));
      const reading = port.read(
        { job: 'read', input, name: 'septic.pdf' },
        { signal: stop.signal, onProgress: () => stop.abort() },
      );
      await expect(reading).rejects.toMatchObject({ code: 'stopped', about: 'septic.pdf' });
    } finally {
      await port.close();
    }
  });
});
