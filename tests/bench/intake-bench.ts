import { mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PDFDocument, StandardFonts } from 'pdf-lib';
import sharp from 'sharp';
import { normalise } from '../../core/intake/normalise.ts';
import { fileSource } from '../../core/intake/pdfium/byte-source.ts';
import { openDocument } from '../../core/intake/pdfium/open-document.ts';
import { readPage } from '../../core/intake/pdfium/read-page.ts';
import { openWorkers } from '../../core/workers/process-port.ts';

/** What keeping one file took. Milliseconds; the stages are measured apart, in this process. */
export interface IntakeNumbers {
  readonly what: string;
  readonly pages: number;
  readonly megabytes: number;
  readonly milliseconds: number;
  readonly pagesPerSecond: number;
  readonly stages: { readonly rewrite: number; readonly readOnce: number };
}

/** Letter pages as an office scanner makes them: 200 dpi, JPEG, paper with some noise. */
async function scan(pages: number): Promise<Uint8Array> {
  const document = await PDFDocument.create();
  const lines = Array.from(
    { length: 40 },
    (_, row) => `<rect x="200" y="${240 + row * 44}" width="${900 + ((row * 97) % 400)}" height="14" fill="#333"/>`,
  );
  const svg = Buffer.from(`<svg width="1700" height="2200">${lines.join('')}</svg>`);
  const noise = { type: 'gaussian', mean: 228, sigma: 4 } as const;
  const jpeg = await sharp({ create: { width: 1700, height: 2200, channels: 3, background: '#fff', noise } })
    .composite([{ input: svg }])
    .jpeg({ quality: 75 })
    .toBuffer();
  for (let page = 0; page < pages; page += 1) {
    // Each page its own copy of the picture, as a scanner writes it.
    const picture = await document.embedJpg(Buffer.concat([jpeg, Buffer.alloc(page + 1)]));
    document.addPage([612, 792]).drawImage(picture, { x: 0, y: 0, width: 612, height: 792 });
  }
  return await document.save();
}

/** Sheets of 24 x 36 inches with some ten thousand strokes each. */
async function drawings(sheets: number): Promise<Uint8Array> {
  const document = await PDFDocument.create();
  const font = await document.embedFont(StandardFonts.Helvetica);
  for (let sheet = 0; sheet < sheets; sheet += 1) {
    const page = document.addPage([2592, 1728]);
    for (let stroke = 0; stroke < 10_000; stroke += 1) {
      const [x, y] = [60 + ((stroke * 37 + sheet) % 2400), 120 + ((stroke * 61) % 1500)];
      page.drawLine({ start: { x, y }, end: { x: x + 40, y: y + (stroke % 30) }, thickness: 0.5 });
    }
    page.drawText(`A-${sheet + 1}`, { x: 2400, y: 60, size: 36, font });
  }
  return await document.save();
}

async function letters(pages: number): Promise<Uint8Array> {
  const document = await PDFDocument.create();
  const font = await document.embedFont(StandardFonts.TimesRoman);
  for (let number = 0; number < pages; number += 1) {
    const page = document.addPage([612, 792]);
    for (let line = 0; line < 46; line += 1) {
      const text = `${number}.${line} The applicant shall keep the approved plans on the site until the final inspection`;
      page.drawText(text, { x: 72, y: 720 - line * 14, size: 10, font });
    }
  }
  return await document.save();
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await work();
  return Math.round(performance.now() - start);
}

async function readAll(path: string): Promise<void> {
  const outcome = await openDocument(fileSource(path));
  if (!outcome.ok) throw new Error(`${path} does not open`);
  for (let page = 0; page < outcome.document.pageCount; page += 1) readPage(outcome.document, page);
  outcome.document.close();
}

/** Keeps a 60-page scan, a 12-sheet drawing set and a 250-page text through one warm worker. */
export async function benchIntake(): Promise<readonly IntakeNumbers[]> {
  const folder = mkdtempSync(join(tmpdir(), 'lotfile-bench-'));
  const workers = openWorkers({ count: 1 });
  const numbers: IntakeNumbers[] = [];
  try {
    const cases = [
      { what: 'scan, 60 letter pages', pages: 60, make: scan },
      { what: 'drawings, 12 sheets 24 x 36', pages: 12, make: drawings },
      { what: 'text, 250 letter pages', pages: 250, make: letters },
    ];
    for (const { what, pages, make } of cases) {
      const input = join(folder, 'in.pdf');
      writeFileSync(input, await make(pages));
      const keep = () => workers.keep({ job: 'keep', input, name: what, output: join(folder, 'out.pdf') });
      const milliseconds = await timed(keep);
      const scrap = join(folder, 'scrap.pdf');
      const rewrite = await timed(() => normalise(input, scrap));
      const readOnce = await timed(() => readAll(scrap));
      numbers.push({
        what,
        pages,
        megabytes: Math.round(statSync(input).size / 1e5) / 10,
        milliseconds,
        pagesPerSecond: Math.round((pages / milliseconds) * 10_000) / 10,
        stages: { rewrite, readOnce },
      });
    }
  } finally {
    await workers.close();
    rmSync(folder, { recursive: true, force: true });
  }
  return numbers;
}
