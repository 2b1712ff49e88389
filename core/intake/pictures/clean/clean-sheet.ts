import sharp, { type Sharp } from 'sharp';
import { inkFacts } from '../../ocr/straighten.ts';
import type { CleanUp } from '../../rendition-model.ts';
import { jpegOf } from '../dots-to-page.ts';
import { sheetOfRatio } from '../picture-layout.ts';
import type { OpenSheet } from '../picture-model.ts';
import { evenLight } from './even-light.ts';
import { findSheet } from './find-sheet.ts';
import { flatSize, layFlat } from './lay-flat.ts';
import type { Pixels, Quad } from './shape.ts';
import { trueRatio } from './true-shape.ts';

/** Larger pictures are made smaller first: more dots than a letter sheet has at 400 dpi help no reader. */
const mostDots = 16_000_000;
/** The side of the small picture in which the sheet's corners are looked for. */
const smallSide = 600;
/** Paper curls and lenses bend: so far off it still is that sheet. */
const sheetTolerance = 0.04;
/** Degrees: less is as good as level. */
const leastSkew = 0.15;

const noEdges = 'No edges of a sheet stand out in it; nothing was cut off. Mark the corners yourself.';

function over({ width, height, channels, data }: Pixels): Sharp {
  return sharp(data, { raw: { width, height, channels }, limitInputPixels: false });
}

async function pixelsOf(picture: Sharp): Promise<Pixels> {
  const { data, info } = await picture
    .flatten({ background: 'white' })
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { width: info.width, height: info.height, channels: info.channels === 1 ? 1 : 3, data };
}

async function greyOf(picture: Sharp): Promise<Pixels> {
  return await pixelsOf(picture.toColourspace('b-w'));
}

async function open(sheet: OpenSheet): Promise<Pixels> {
  const { width, height } = sheet.picture;
  const scale = Math.min(1, Math.sqrt(mostDots / (width * height)));
  const side = Math.round(Math.max(width, height) * scale);
  return await pixelsOf(
    sheet
      .upright()
      .resize({ width: side, height: side, fit: 'inside', withoutEnlargement: true })
      .toColourspace('srgb'),
  );
}

/** Corners in dots of the picture. */
async function cornersOf(pixels: Pixels, crop: NonNullable<CleanUp['crop']>): Promise<Quad | undefined> {
  const scaled = (quad: Quad, x: number, y: number): Quad => {
    const [a, b, c, d] = quad;
    const one = (dot: Quad[0]) => ({ x: dot.x * x, y: dot.y * y });
    return [one(a), one(b), one(c), one(d)];
  };
  if (crop !== 'find') return scaled(crop, pixels.width, pixels.height);
  const small = await greyOf(over(pixels).resize({ width: smallSide, height: smallSide, fit: 'inside' }).blur(1.5));
  const found = findSheet(small);
  return found === undefined ? undefined : scaled(found, pixels.width / small.width, pixels.height / small.height);
}

/** Cut out and laid flat, in the shape of the paper it most likely is. */
async function cropped(pixels: Pixels, crop: NonNullable<CleanUp['crop']>): Promise<Pixels | undefined> {
  const quad = await cornersOf(pixels, crop);
  if (quad === undefined) return undefined;
  const size = flatSize(quad, trueRatio(quad, pixels));
  const sheet = sheetOfRatio(size, sheetTolerance);
  if (sheet === undefined) return layFlat(pixels, quad, size);
  const scale = Math.max(size.width / sheet.width, size.height / sheet.height);
  return layFlat(pixels, quad, { width: Math.round(sheet.width * scale), height: Math.round(sheet.height * scale) });
}

/** Levelled about its middle; the corners that turn in are filled with white, the size stays. */
async function levelled(pixels: Pixels): Promise<Pixels> {
  const grey = await greyOf(over(pixels));
  const { skew } = inkFacts({ width: grey.width, height: grey.height, pixels: grey.data });
  if (Math.abs(skew) < leastSkew) return pixels;
  const { width, height } = pixels;
  const turned = await over(pixels)
    .rotate(-skew, { background: '#ffffff' })
    .raw()
    .toBuffer({ resolveWithObject: true });
  const { info } = turned;
  const left = Math.max(0, Math.floor((info.width - width) / 2));
  const top = Math.max(0, Math.floor((info.height - height) / 2));
  const level = sharp(turned.data, {
    raw: { width: info.width, height: info.height, channels: info.channels },
    limitInputPixels: false,
  });
  return await pixelsOf(
    level.extract({ left, top, width: Math.min(width, info.width), height: Math.min(height, info.height) }),
  );
}

/**
 * Mends a picture of a sheet as asked: cut out and laid flat, levelled, its light evened. What comes out is laid over
 * the sheet of paper it shows.
 */
export async function cleanSheet(sheet: OpenSheet, asked: CleanUp): Promise<OpenSheet> {
  const notes = [...sheet.notes];
  let pixels = await open(sheet);
  let cut = false;
  if (asked.crop !== undefined) {
    const flat = await cropped(pixels, asked.crop);
    if (flat === undefined) notes.push(noEdges);
    else [pixels, cut] = [flat, true];
  }
  if (asked.straighten === true) pixels = await levelled(pixels);
  if (asked.contrast === true) pixels = await evenLight(pixels);
  const done = pixels;
  const upright = (): Sharp => over(done);
  const picture = await jpegOf(upright(), 90);
  const seen = cut ? { density: undefined, camera: false } : { density: sheet.density, camera: sheet.camera };
  return { ...seen, picture, orientation: 1, way: 'cleaned', notes, upright };
}
