import sharp, { type Sharp } from 'sharp';
import type { SeenRect } from '../../vocabulary/lot.ts';
import type { Raster } from '../pdfium/read-page.ts';

/** Pictures are compared as grids of this many cells along the longer side: fine enough to tell any turn. */
const cells = 48;
/** In smaller cells (points) half a dot of the reader's rounding would tell, not what the picture shows. */
const leastPoints = 10;

/** A hundredth of a pixel beyond a border is arithmetic, no pixel. */
const rounding = 0.01;

/** Mean greys of a picture in a coarse grid, row by row from the top. */
export interface GreyGrid {
  readonly columns: number;
  readonly rows: number;
  readonly values: readonly number[];
}

function sizeFor({ width, height }: SeenRect): { readonly columns: number; readonly rows: number } {
  const longest = Math.max(width, height);
  const along = (side: number) => Math.max(1, Math.round(Math.min(side / leastPoints, (cells * side) / longest)));
  return { columns: along(width), rows: along(height) };
}

/** One way of making smaller for both sides: halftones would show whatever differs between two. */
async function gridOf(picture: Sharp, { columns, rows }: { columns: number; rows: number }): Promise<GreyGrid> {
  const { data, info } = await picture
    .resize(columns, rows, { fit: 'fill', kernel: 'linear', fastShrinkOnLoad: false })
    .flatten({ background: 'white' })
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true });
  const step = info.channels;
  const values = Array.from({ length: columns * rows }, (_, cell) => {
    const red = data[cell * step] ?? 0;
    return step < 3 ? red : 0.3 * red + 0.59 * (data[cell * step + 1] ?? 0) + 0.11 * (data[cell * step + 2] ?? 0);
  });
  return { columns, rows, values };
}

/**
 * A decoder that is asked for a smaller picture leaves dots out, and what it shows then lies askew by a dot or two:
 * pictures up to so many dots are decoded whole first.
 */
const mostDots = 40_000_000;

/** What a picture looks like as its decoder shows it upright, to be held against the place where it will stand. */
export async function lookOf(upright: Sharp, place: SeenRect, dots: number): Promise<GreyGrid> {
  if (dots > mostDots) return await gridOf(upright, sizeFor(place));
  const { data, info } = await upright
    .flatten({ background: 'white' })
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true });
  return await gridOf(sharp(data, { raw: info, limitInputPixels: false }), sizeFor(place));
}

/** The part of a rendered page where the picture stands: the reader spreads it over every pixel that it touches. */
function placed(raster: Raster, pageHeight: number, place: SeenRect): Sharp {
  const from = (points: number): number => Math.max(0, Math.floor(points * raster.scale + rounding));
  const to = (points: number): number => Math.ceil(points * raster.scale - rounding);
  const left = Math.min(raster.width - 1, from(place.x));
  const top = Math.min(raster.height - 1, from(pageHeight - place.y - place.height));
  const width = Math.max(1, Math.min(raster.width, to(place.x + place.width)) - left);
  const height = Math.max(1, Math.min(raster.height, to(pageHeight - place.y)) - top);
  const raw = { width: raster.width, height: raster.height, channels: 1 } as const;
  return sharp(raster.pixels, { raw, limitInputPixels: false }).extract({ left, top, width, height });
}

/** Mean difference (0-255) between what a picture looks like and what the independent reader shows on the page. */
export async function pictureDifference(
  look: GreyGrid,
  page: { readonly raster: Raster; readonly height: number; readonly place: SeenRect },
): Promise<number> {
  const shown = await gridOf(placed(page.raster, page.height, page.place), look);
  const sum = shown.values.reduce((total, value, cell) => total + Math.abs(value - (look.values[cell] ?? 0)), 0);
  return sum / shown.values.length;
}
