import type { PageSight, Raster } from './pdfium/read-page.ts';

/**
 * How far apart two grey values must be to count as different, and how many such pixels a page may have: the same
 * reader draws the same streams, so that nearly always there is no difference at all. A lost comma is about 4 pixels
 * at 72 dpi, a lost word 100.
 */
const tellingStep = 40;
const allowedPixels = 3;

function differingPixels(a: Uint8Array, b: Uint8Array): number {
  if (Buffer.compare(a, b) === 0) return 0;
  let count = 0;
  for (let index = 0; index < a.length; index += 1) {
    if (Math.abs((a[index] ?? 0) - (b[index] ?? 0)) > tellingStep) count += 1;
  }
  return count;
}

/**
 * Compares a kept page with its original, both seen by the independent reader.
 * @returns what differs, to stand after "page 3: ", or undefined where nothing does.
 */
export function differenceOf(original: PageSight, kept: PageSight): string | undefined {
  return original.text === kept.text ? differenceOfLook(original, kept) : 'the text differs';
}

function countLetters({ text }: PageSight): number {
  return text.replace(/\s/g, '').length;
}

/**
 * As {@link differenceOf}, for a page that stands in another file now: the reader orders letters, and mirrors brackets,
 * by what the whole file says of its language, so that they are only counted.
 */
export function differenceElsewhere(kept: PageSight, linked: PageSight): string | undefined {
  return countLetters(kept) === countLetters(linked) ? differenceOfLook(kept, linked) : 'the text differs';
}

function differenceOfLook(original: PageSight, kept: PageSight): string | undefined {
  if (Math.abs(original.width - kept.width) > 0.01 || Math.abs(original.height - kept.height) > 0.01) {
    return 'the page size differs';
  }
  if (original.raster.pixels.length !== kept.raster.pixels.length) return 'the picture has another size';
  const pixels = differingPixels(original.raster.pixels, kept.raster.pixels);
  return pixels > allowedPixels ? `the picture differs in ${pixels} places` : undefined;
}

/** Cells in which a page and a picture of it are compared: pixels of the raster along each side. */
const cell = 16;
const tellingCell = 60;
const allowedCells = 0.01;

function cellMeans({ width, height, pixels }: Raster): readonly number[] {
  const columns = Math.ceil(width / cell);
  const sums = new Float64Array(columns * Math.ceil(height / cell));
  const counts = new Float64Array(sums.length);
  for (let index = 0; index < pixels.length; index += 1) {
    const at = Math.floor(Math.floor(index / width) / cell) * columns + Math.floor((index % width) / cell);
    sums[at] = (sums[at] ?? 0) + (pixels[index] ?? 255);
    counts[at] = (counts[at] ?? 0) + 1;
  }
  return Array.from(sums, (sum, at) => sum / Math.max(1, counts[at] ?? 1));
}

/**
 * Compares a page with a picture of it: drawn finer and made smaller again, no pixel is quite the same, so means over
 * small cells are looked at. Text is not: it stands beside such pages.
 */
export function differenceOfPicture(original: PageSight, kept: PageSight): string | undefined {
  if (Math.abs(original.width - kept.width) > 0.01 || Math.abs(original.height - kept.height) > 0.01) {
    return 'the page size differs';
  }
  if (original.raster.pixels.length !== kept.raster.pixels.length) return 'the picture has another size';
  const [before, after] = [cellMeans(original.raster), cellMeans(kept.raster)];
  const telling = before.filter((mean, at) => Math.abs(mean - (after[at] ?? 0)) > tellingCell).length;
  return telling > before.length * allowedCells ? `the picture differs in ${telling} places` : undefined;
}

/** The page has text that a person should see, but its picture is blank. */
export function looksLost(sight: PageSight): boolean {
  const letters = sight.text.replace(/\s/g, '').length;
  return letters > 40 && sight.raster.pixels.every((value) => value > 250);
}
