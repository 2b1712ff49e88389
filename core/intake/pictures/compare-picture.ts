import sharp from 'sharp';
import type { SeenRect } from '../../vocabulary/lot.ts';
import type { Raster } from '../pdfium/read-page.ts';

/** Pictures are compared as grids of this many cells along the longer side: fine enough to tell any turn. */
const cells = 48;
/** Smaller cells would tell how two programs shrink a picture, not what it shows. */
const leastDots = 3;

interface Grid {
  readonly columns: number;
  readonly rows: number;
  readonly values: readonly number[];
}

interface GreyPixels {
  readonly width: number;
  readonly height: number;
  at(x: number, y: number): number;
}

function average(pixels: GreyPixels, box: { left: number; top: number; right: number; bottom: number }): number {
  let sum = 0;
  let count = 0;
  for (let y = Math.floor(box.top); y < Math.max(box.top + 1, Math.floor(box.bottom)); y += 1) {
    for (let x = Math.floor(box.left); x < Math.max(box.left + 1, Math.floor(box.right)); x += 1) {
      sum += pixels.at(Math.min(x, pixels.width - 1), Math.min(y, pixels.height - 1));
      count += 1;
    }
  }
  return sum / Math.max(1, count);
}

function gridOf(pixels: GreyPixels, columns: number, rows: number): Grid {
  const across = pixels.width / columns;
  const down = pixels.height / rows;
  const values = Array.from({ length: columns * rows }, (_, index) => {
    const left = (index % columns) * across;
    const top = Math.floor(index / columns) * down;
    return average(pixels, { left, top, right: left + across, bottom: top + down });
  });
  return { columns, rows, values };
}

/** The part of a rendered page where the picture stands. */
function placed(raster: Raster, pageHeight: number, place: SeenRect): GreyPixels {
  const left = Math.round(place.x * raster.scale);
  const top = Math.round((pageHeight - place.y - place.height) * raster.scale);
  const width = Math.max(1, Math.min(raster.width - left, Math.round(place.width * raster.scale)));
  const height = Math.max(1, Math.min(raster.height - top, Math.round(place.height * raster.scale)));
  return { width, height, at: (x, y) => raster.pixels[(top + y) * raster.width + left + x] ?? 255 };
}

async function decoded(picture: Buffer): Promise<GreyPixels> {
  const { data, info } = await sharp(picture).raw().toBuffer({ resolveWithObject: true });
  const step = info.channels;
  const at = (x: number, y: number) => {
    const from = (y * info.width + x) * step;
    const red = data[from] ?? 0;
    if (step < 3) return red;
    return 0.3 * red + 0.59 * (data[from + 1] ?? 0) + 0.11 * (data[from + 2] ?? 0);
  };
  return { width: info.width, height: info.height, at };
}

/**
 * Mean difference (0-255) between a picture as its decoder shows it upright (a small sRGB PNG), and as the independent
 * reader shows it on the page.
 */
export async function pictureDifference(
  reference: Buffer,
  page: { readonly raster: Raster; readonly height: number; readonly place: SeenRect },
): Promise<number> {
  const shown = placed(page.raster, page.height, page.place);
  const longest = Math.max(page.place.width, page.place.height);
  const columns = Math.max(
    1,
    Math.min(Math.floor(shown.width / leastDots), Math.round((cells * page.place.width) / longest)),
  );
  const rows = Math.max(
    1,
    Math.min(Math.floor(shown.height / leastDots), Math.round((cells * page.place.height) / longest)),
  );
  const a = gridOf(shown, columns, rows);
  const b = gridOf(await decoded(reference), columns, rows);
  const sum = a.values.reduce((total, value, index) => total + Math.abs(value - (b.values[index] ?? 0)), 0);
  return sum / a.values.length;
}
