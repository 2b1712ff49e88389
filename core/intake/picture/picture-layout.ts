import type { SeenRect } from '../../vocabulary/lot.ts';

/** Where a picture stands on its page; points, origin at the lower left. */
export interface PictureLayout {
  readonly width: number;
  readonly height: number;
  readonly place: SeenRect;
  readonly say: 'true size' | 'fitted on letter';
}

/** Densities a scanner writes; anything else is a default or a mistake. */
const scanDensity = { least: 150, most: 1200 };
/** From a business card to the longest banner that a plotter prints, in points. */
const trueSize = { least: 100, most: 72 * 120 };
const letter = { short: 612, long: 792 };
/** Room for a margin line below (18 to 45 pt from the edge), and what a printer can't reach elsewhere. */
const margin = { side: 36, top: 36, bottom: 54 };
/** A small picture isn't blown up beyond 96 dots to the inch. */
const largestDot = 72 / 96;

/**
 * Lays a picture on a page: a scan at its true size, anything else fitted on a letter sheet with room for a margin line.
 * @param pixels size as seen (turned)
 * @param density dots per inch, where the file states one
 */
export function pictureLayout(
  pixels: { readonly width: number; readonly height: number },
  density: number | undefined,
  camera: boolean,
): PictureLayout {
  if (!camera && density !== undefined && density >= scanDensity.least && density <= scanDensity.most) {
    const width = (pixels.width * 72) / density;
    const height = (pixels.height * 72) / density;
    if (Math.min(width, height) >= trueSize.least && Math.max(width, height) <= trueSize.most) {
      return { width, height, place: { x: 0, y: 0, width, height }, say: 'true size' };
    }
  }
  const lies = pixels.width > pixels.height;
  const page = { width: lies ? letter.long : letter.short, height: lies ? letter.short : letter.long };
  const room = { width: page.width - 2 * margin.side, height: page.height - margin.top - margin.bottom };
  const scale = Math.min(room.width / pixels.width, room.height / pixels.height, largestDot);
  const size = { width: pixels.width * scale, height: pixels.height * scale };
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
