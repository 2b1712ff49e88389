import type { SeenRect } from '../../vocabulary/lot.ts';
import type { Raster } from '../pdfium/read-page.ts';

/** Sizes of a margin line in points, longest first; a planner takes the first its text fits. */
const stripSizes = [
  [300, 12],
  [240, 11],
  [190, 10],
] as const;

/** Home printers leave about a quarter inch white: start there, go inward, and only then outward to the hard limit. */
const easyEdge = 18;
const hardEdge = 8;
const sideEdge = 24;
/** White kept free round a strip on every side. */
const border = 2;

/** Even paper: light, and nothing on it that stands out from its own noise. */
const lightest = 200;
const noisiest = 5;

/** Running sums over a band of rows, so that any rectangle's mean and spread take four look-ups. */
class Band {
  readonly #raster: Raster;
  readonly #top: number;
  readonly #sums: Float64Array;
  readonly #squares: Float64Array;
  readonly #stride: number;

  constructor(raster: Raster, top: number, rows: number) {
    this.#raster = raster;
    this.#top = top;
    this.#stride = raster.width + 1;
    this.#sums = new Float64Array(this.#stride * (rows + 1));
    this.#squares = new Float64Array(this.#stride * (rows + 1));
    for (let row = 0; row < rows; row += 1) this.#addRow(row);
  }

  #addRow(row: number): void {
    const from = (this.#top + row) * this.#raster.width;
    let sum = 0;
    let square = 0;
    for (let column = 0; column < this.#raster.width; column += 1) {
      const value = this.#raster.pixels[from + column] ?? 0;
      sum += value;
      square += value * value;
      const above = row * this.#stride + column + 1;
      this.#sums[above + this.#stride] = (this.#sums[above] ?? 0) + sum;
      this.#squares[above + this.#stride] = (this.#squares[above] ?? 0) + square;
    }
  }

  #total(table: Float64Array, box: PixelBox): number {
    const top = (box.top - this.#top) * this.#stride;
    const bottom = (box.bottom - this.#top) * this.#stride;
    const at = (index: number) => table[index] ?? 0;
    return at(bottom + box.right) - at(bottom + box.left) - at(top + box.right) + at(top + box.left);
  }

  /** True where the box holds nothing but even, light paper. */
  isClear(box: PixelBox): boolean {
    const count = (box.right - box.left) * (box.bottom - box.top);
    const mean = this.#total(this.#sums, box) / count;
    if (mean < lightest) return false;
    const spread = Math.sqrt(Math.max(0, this.#total(this.#squares, box) / count - mean * mean));
    return spread <= noisiest && this.#nothingStandsOut(box, mean, spread) && this.#rowsAreEven(box);
  }

  #nothingStandsOut(box: PixelBox, mean: number, spread: number): boolean {
    const furthest = Math.max(6, spread * 5);
    for (let row = box.top; row < box.bottom; row += 1) {
      const from = row * this.#raster.width;
      for (let column = box.left; column < box.right; column += 1) {
        if (Math.abs((this.#raster.pixels[from + column] ?? 0) - mean) > furthest) return false;
      }
    }
    return true;
  }

  /** A faint ruled line hides in the spread of the whole, but not in the means of the rows. */
  #rowsAreEven(box: PixelBox): boolean {
    let least = 255;
    let most = 0;
    for (let row = box.top; row < box.bottom; row += 1) {
      const mean = this.#total(this.#sums, { ...box, top: row, bottom: row + 1 }) / (box.right - box.left);
      least = Math.min(least, mean);
      most = Math.max(most, mean);
    }
    return most - least <= 4;
  }
}

interface PixelBox {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

interface Size {
  readonly width: number;
  readonly height: number;
}

interface Sheet extends Size {
  /** How far from the edge a strip may stand. */
  readonly reach: number;
}

function pixelBox(raster: Raster, sheet: Sheet, strip: SeenRect): PixelBox {
  const across = raster.width / sheet.width;
  const down = raster.height / sheet.height;
  return {
    left: Math.max(0, Math.floor((strip.x - border) * across)),
    right: Math.min(raster.width, Math.ceil((strip.x + strip.width + border) * across)),
    top: Math.max(0, Math.floor((sheet.height - strip.y - strip.height - border) * down)),
    bottom: Math.min(raster.height, Math.ceil((sheet.height - strip.y + border) * down)),
  };
}

/** Distances from the edge to try: from the easy edge inward, then outward to the hard one. */
function distances(reach: number, height: number): readonly number[] {
  const inward = Array.from({ length: Math.max(0, reach - height - easyEdge + 1) }, (_, index) => easyEdge + index);
  const outward = Array.from({ length: easyEdge - hardEdge }, (_, index) => easyEdge - 1 - index);
  return [...inward, ...outward];
}

function findStrip(
  band: Band,
  raster: Raster,
  place: { readonly sheet: Sheet; readonly edge: 'bottom' | 'top'; readonly size: readonly [number, number] },
): SeenRect | undefined {
  const { sheet, edge } = place;
  const [width, height] = place.size;
  for (const distance of distances(sheet.reach, height)) {
    const y = edge === 'bottom' ? distance : sheet.height - distance - height;
    for (let x = sheet.width - sideEdge - width; x >= sideEdge; x -= 4) {
      const strip = { x, y, width, height };
      if (band.isClear(pixelBox(raster, sheet, strip))) return strip;
    }
  }
  return undefined;
}

/** How far from its edge a strip may stand. */
function reachOf({ width, height }: Size): number {
  return Math.min(Math.max(width, height) > 1300 ? 100 : 60, height / 3);
}

/** Lying strips at the bottom edge, then at the top. */
function levelStrips(raster: Raster, size: Size): readonly SeenRect[] {
  const reach = reachOf(size);
  const sheet = { ...size, reach };
  const rows = bandRows(raster.height, size.height, reach);
  const strips: SeenRect[] = [];
  for (const edge of ['bottom', 'top'] as const) {
    const band = new Band(raster, edge === 'bottom' ? raster.height - rows : 0, rows);
    for (const stripSize of stripSizes) {
      const strip = findStrip(band, raster, { sheet, edge, size: stripSize });
      if (strip !== undefined) strips.push(strip);
    }
  }
  return strips;
}

function bandRows(pixels: number, points: number, reach: number): number {
  return Math.min(pixels, Math.ceil(((reach + border + 1) * pixels) / points));
}

/** The page turned a quarter clockwise, only what its left and right bands become: the rest stays empty. */
function turnedBands({ pixels, width, height, scale }: Raster, columns: number): Raster {
  const turned = new Uint8Array(width * height);
  for (let column = 0; column < width; column += 1) {
    if (column >= columns && column < width - columns) continue;
    for (let row = 0; row < height; row += 1) {
      turned[column * height + height - 1 - row] = pixels[row * width + column] ?? 0;
    }
  }
  return { pixels: turned, width: height, height: width, scale };
}

/** Standing strips at the right edge, then at the left: they lie level once the page is turned a quarter. */
function standingStrips(raster: Raster, { width, height }: Size): readonly SeenRect[] {
  const size = { width: height, height: width };
  const turned = turnedBands(raster, bandRows(raster.width, width, reachOf(size)));
  return levelStrips(turned, size).map((strip) => ({
    x: width - strip.y - strip.height,
    y: strip.x,
    width: strip.height,
    height: strip.width,
  }));
}

/**
 * Places for a margin line on a page as it is seen: bottom edge first, right-hand end first, so that it comes to
 * stand left of a title block; then the top edge, then standing ones at the right and left edges for a page that is
 * turned. At most one of each length at each edge.
 * @param raster the page as rendered, annotations shown
 * @param size of the seen page in points (UserUnit applied)
 */
export function clearStrips(raster: Raster, size: Size): SeenRect[] {
  return [...levelStrips(raster, size), ...standingStrips(raster, size)];
}
