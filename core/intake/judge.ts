import type { PageSight } from './pdfium/read-page.ts';

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
  if (Math.abs(original.width - kept.width) > 0.01 || Math.abs(original.height - kept.height) > 0.01) {
    return 'the page size differs';
  }
  if (original.text !== kept.text) return 'the text differs';
  if (original.raster.pixels.length !== kept.raster.pixels.length) return 'the picture has another size';
  const pixels = differingPixels(original.raster.pixels, kept.raster.pixels);
  return pixels > allowedPixels ? `the picture differs in ${pixels} places` : undefined;
}

/** The page has text that a person should see, but its picture is blank. */
export function looksLost(sight: PageSight): boolean {
  const letters = sight.text.replace(/\s/g, '').length;
  return letters > 40 && sight.raster.pixels.every((value) => value > 250);
}
