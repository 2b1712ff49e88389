import type { Raster } from '../../intake/pdfium/read-page.ts';
import type { SeenRect } from '../../vocabulary/lot.ts';

/** Grey values further apart than this count as different; edges of letters stray by less. */
const tellingStep = 40;

/** Numbers of the pixels that differ. */
export function changed(before: Raster, after: Raster): readonly number[] {
  const found: number[] = [];
  for (let n = 0; n < before.pixels.length; n += 1) {
    if (Math.abs((before.pixels[n] ?? 0) - (after.pixels[n] ?? 0)) > tellingStep) found.push(n);
  }
  return found;
}

export function isWithin(
  pixel: number,
  { width, height, scale }: Raster,
  { rect, slack }: { rect: SeenRect; slack: number },
): boolean {
  const x = (pixel % width) / scale;
  const y = (height - Math.floor(pixel / width)) / scale;
  return (
    x >= rect.x - slack && x <= rect.x + rect.width + slack && y >= rect.y - slack && y <= rect.y + rect.height + slack
  );
}

/** The middle of a square: whoever marks it crosses that, and its frame doesn't. */
export function middleOf({ x, y, width, height }: SeenRect): SeenRect {
  return { x: x + width / 4, y: y + height / 4, width: width / 2, height: height / 2 };
}
