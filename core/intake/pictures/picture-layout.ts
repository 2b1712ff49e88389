import type { SeenRect } from '../../vocabulary/lot.ts';
import { sheetNameOf, sheetSizes } from '../../vocabulary/sheets.ts';
import type { Density } from './picture-model.ts';

/** Where a picture stands on its page; points, origin at the lower left. */
export interface PictureLayout {
  readonly width: number;
  readonly height: number;
  readonly place: SeenRect;
  readonly say: 'true size' | 'fills its sheet' | 'fitted on letter';
}

/** Densities a scanner writes; what lies outside is a default or a mistake. */
const scanDensity = { least: 150, most: 1200 };
/** Below that a density is believed only where the picture then has the size of a sheet of paper. */
const coarseDensity = 72;
/** Points by which a coarse scan may miss its sheet. */
const sheetTolerance = 8;
/** From a business card to the longest banner that a plotter prints, in points. */
const trueSize = { least: 100, most: 72 * 120 };
/** Sheets that a picture without density may show, told by the ratio of its sides. */
const knownSheets = [sheetSizes.letter, sheetSizes.legal, sheetSizes.a4] as const;
const ratioTolerance = 0.006;
/** Fewer dots than this to the inch is no scan of a sheet. */
const leastOnSheet = 100;
const letter = { short: 612, long: 792 };
/** Room for a margin line below (18 to 45 pt from the edge), and what a printer can't reach elsewhere. */
const margin = { side: 36, top: 36, bottom: 54 };
/** A small picture isn't blown up beyond 96 dots to the inch. */
const largestDot = 72 / 96;

interface Size {
  readonly width: number;
  readonly height: number;
}

function filling({ width, height }: Size, say: PictureLayout['say']): PictureLayout {
  return { width, height, place: { x: 0, y: 0, width, height }, say };
}

/** The size that the file states, where it can be believed. */
function statedSize(pixels: Size, density: Density | undefined): Size | undefined {
  if (density?.known !== true) return undefined;
  const least = Math.min(density.x, density.y);
  if (least < coarseDensity || Math.max(density.x, density.y) > scanDensity.most) return undefined;
  const size = { width: (pixels.width * 72) / density.x, height: (pixels.height * 72) / density.y };
  if (Math.min(size.width, size.height) < trueSize.least || Math.max(size.width, size.height) > trueSize.most)
    return undefined;
  // A standard fax has 204 dots across and 98 down: the finer of the two tells a scan.
  const scanned = Math.max(density.x, density.y) >= scanDensity.least;
  return scanned || sheetNameOf(size.width, size.height, sheetTolerance) !== undefined ? size : undefined;
}

/** The sheet of paper whose sides stand in the same ratio. */
export function sheetOfRatio({ width, height }: Size, tolerance = ratioTolerance): Size | undefined {
  const [short, long] = width < height ? [width, height] : [height, width];
  const sheet = knownSheets.find(([w, h]) => Math.abs((long / short) * (w / h) - 1) < tolerance);
  if (sheet === undefined || short / (sheet[0] / 72) < leastOnSheet) return undefined;
  return width < height ? { width: sheet[0], height: sheet[1] } : { width: sheet[1], height: sheet[0] };
}

/**
 * Lays a picture on a page: a scan at its true size, a picture in the shape of a sheet over that sheet, anything else
 * fitted on a letter sheet with room for a margin line.
 * @param pixels size as seen (turned)
 * @param density dots per inch as seen, where the file states one
 * @param camera a photo: its shape and its density say nothing about paper
 */
export function pictureLayout(pixels: Size, density: Density | undefined, camera: boolean): PictureLayout {
  const stated = camera ? undefined : statedSize(pixels, density);
  if (stated !== undefined) return filling(stated, 'true size');
  const shape = { width: pixels.width, height: (pixels.height * (density?.x ?? 1)) / (density?.y ?? 1) };
  const sheet = camera ? undefined : sheetOfRatio(shape);
  return sheet === undefined ? fittedOnLetter(shape) : filling(sheet, 'fills its sheet');
}

function fittedOnLetter(shape: Size): PictureLayout {
  const lies = shape.width > shape.height;
  const page = { width: lies ? letter.long : letter.short, height: lies ? letter.short : letter.long };
  const room = { width: page.width - 2 * margin.side, height: page.height - margin.top - margin.bottom };
  const scale = Math.min(room.width / shape.width, room.height / shape.height, largestDot);
  const size = { width: shape.width * scale, height: shape.height * scale };
  const place = { x: (page.width - size.width) / 2, y: margin.bottom + (room.height - size.height) / 2, ...size };
  return { ...page, place, say: 'fitted on letter' };
}

/**
 * The content matrix that lays a stored picture upright into a rectangle.
 * @param orientation EXIF 1-8 (JEITA CP-3451, tag 274)
 */
export function uprightMatrix(orientation: number, place: SeenRect): readonly number[] {
  const { x, y, width: w, height: h } = place;
  switch (orientation) {
    case 2:
      return [-w, 0, 0, h, x + w, y];
    case 3:
      return [-w, 0, 0, -h, x + w, y + h];
    case 4:
      return [w, 0, 0, -h, x, y + h];
    case 5:
      return [0, -h, -w, 0, x + w, y + h];
    case 6:
      return [0, -h, w, 0, x, y + h];
    case 7:
      return [0, h, w, 0, x, y];
    case 8:
      return [0, h, -w, 0, x + w, y];
    default:
      return [w, 0, 0, h, x, y];
  }
}
