/**
 * Pages per second of reading letters, against the native `tesseract` program on the same pictures in one run:
 * `ocr-speed.ts [pages]`. The native program is only measured, never used: where it isn't installed, its rows say so.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import { LetterReader } from '../../../core/intake/ocr/letter-reader.ts';
import { drawGrey, type GreyPicture } from '../../../core/intake/ocr/page-picture.ts';
import { readPages } from '../../../core/intake/ocr/read-pages.ts';
import { fileSource } from '../../../core/intake/pdfium/byte-source.ts';
import { openDocument } from '../../../core/intake/pdfium/open-document.ts';
import { composeDocument } from './compose.ts';
import { drawDocument } from './draw-document.ts';
import { scanDocument } from './scan.ts';

const count = Number(process.argv[2] ?? 12);
const folder = mkdtempSync(join(tmpdir(), 'lotfile-ocr-speed-'));
const dpi = 200;

async function pictureOf(path: string): Promise<GreyPicture> {
  const outcome = await openDocument(fileSource(path));
  if (!outcome.ok) throw new Error(outcome.why);
  const picture = drawGrey(outcome.document, 0, dpi / 72);
  outcome.document.close();
  if (picture === undefined) throw new Error('no picture');
  return picture;
}

interface Page {
  readonly pdf: string;
  readonly map: string;
  readonly picture: GreyPicture;
}

async function pageOf(index: number): Promise<Page> {
  const pdf = join(folder, `${index}.pdf`);
  writeFileSync(pdf, await scanDocument(await drawDocument(composeDocument(index)), index));
  const picture = await pictureOf(pdf);
  const map = join(folder, `${index}.pgm`);
  writeFileSync(map, Buffer.concat([Buffer.from(`P5\n${picture.width} ${picture.height}\n255\n`), picture.pixels]));
  return { pdf, map, picture };
}

const letters = (text: string) => text.replace(/\s/g, '').length;

async function timed(name: string, pages: readonly Page[], read: (page: Page) => Promise<number>): Promise<void> {
  const started = performance.now();
  let found = 0;
  for (const page of pages) found += await read(page);
  const seconds = (performance.now() - started) / 1000;
  process.stdout.write(
    `${name.padEnd(52)} ${(pages.length / seconds).toFixed(2).padStart(6)} pages/s  ${(seconds / pages.length).toFixed(2)} s a page  ${found} letters\n`,
  );
}

function native(page: Page, words: readonly string[]): number {
  const env = { ...process.env, OMP_THREAD_LIMIT: '1' };
  const out = execFileSync('tesseract', [page.map, '-', '-l', 'eng', '--dpi', String(dpi), ...words], {
    env,
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  return letters(out.toString());
}

function hasNative(): boolean {
  try {
    execFileSync('tesseract', ['--version'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}

try {
  const pages = await Promise.all(Array.from({ length: count }, (_, at) => pageOf(at * 7)));
  const reader = await LetterReader.open();
  const wordsOf = async (page: Page) =>
    letters((await reader.read(page.picture, dpi)).map((word) => word.text).join(''));
  const whole = async (page: Page) => {
    const read = await readPages(page.pdf, 'page', { reader: async () => reader });
    return letters(read.flatMap((one) => one.lines.flatMap((line) => line.words.map((word) => word.text))).join(''));
  };
  process.stdout.write(`${count} scanned letter pages, ${dpi} dots per inch, one thread each\n`);
  await wordsOf(pages[0] ?? (await pageOf(0)));
  await timed('ours, letters alone', pages, wordsOf);
  await timed('ours, whole (drawn, levelled, read, looked at twice)', pages, whole);
  if (hasNative()) {
    const data = dirname(fileURLToPath(import.meta.resolve('@tesseract.js-data/eng/package.json')));
    writeFileSync(
      join(folder, 'eng.traineddata'),
      gunzipSync(readFileSync(join(data, '4.0.0_best_int', 'eng.traineddata.gz'))),
    );
    await timed('native tesseract, the same data', pages, async (page) => native(page, ['--tessdata-dir', folder]));
    await timed('native tesseract, the data it came with', pages, async (page) => native(page, []));
    await timed('ours again, letters alone', pages, wordsOf);
  } else process.stdout.write('native tesseract: not installed here\n');
  await reader.close();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
