import { readFileSync } from 'node:fs';
import sharp, { type Sharp } from 'sharp';
import utif from 'utif2';
import { withinTime } from '../within-time.ts';
import { dotsOf, jpegOf, twoTone } from './dots-to-page.ts';
import { checkSize, damaged, mostPictures, options, secondsLimit } from './limits.ts';
import type { Density, OpenPictures, OpenSheet } from './picture-model.ts';
import { beyondReach, cameraRaw, rareTiff } from './rare-tiff.ts';
import { aloneDirectory } from './tiff-alone.ts';
import { isRareSamples, rareSamples } from './tiff-samples.ts';
import { bigPackings, isCameraRaw, type TiffPage, tiffPages } from './tiff-tags.ts';

const centimetres = 2.54;
/** TIFF 6.0: old-style and new-style JPEG inside. */
const jpegInside = new Set([6, 7]);

function densityOf(page: TiffPage): Density | undefined {
  const { xResolution: x, yResolution: y, unit } = page;
  if (x === undefined || y === undefined || !(x > 0 && y > 0)) return undefined;
  const factor = unit === 3 ? centimetres : 1;
  return { x: x * factor, y: y * factor, known: unit === 2 || unit === 3 };
}

interface Place {
  readonly path: string;
  readonly name: string;
  readonly bytes: Buffer;
  /** Position in the chain of directories. */
  readonly index: number;
  readonly page: TiffPage;
}

type Made = Pick<OpenSheet, 'picture' | 'way' | 'upright'>;

async function madeOf(open: () => Sharp, page: TiffPage): Promise<Pick<OpenSheet, 'picture' | 'way'>> {
  const { grey } = page;
  if (page.bits === 1 && grey) return { picture: await twoTone(open()), way: 'twoTone' };
  if (jpegInside.has(page.compression))
    return { picture: await jpegOf(open().toColourspace(grey ? 'b-w' : 'srgb')), way: 'photo' };
  return await dotsOf(open, { pixels: page.width * page.height, grey });
}

async function bySharp({ path, index, page }: Place): Promise<Made> {
  const upright = (): Sharp =>
    sharp(path, { ...options, page: index })
      .autoOrient()
      .timeout({ seconds: secondsLimit });
  return { ...(await madeOf(upright, page)), upright };
}

interface Dots {
  readonly data: Buffer;
  readonly info: { readonly width: number; readonly height: number; readonly channels: 1 | 2 | 3 | 4 };
}

function overDots({ data, info }: Dots): Sharp {
  const { width, height, channels } = info;
  return sharp(data, { raw: { width, height, channels }, limitInputPixels: false });
}

/** EXIF 1-8 undone on dots that carry no such note any more: mirrored first, then turned clockwise. */
async function turned(picture: Sharp, orientation: number): Promise<Dots> {
  const mirrored = [2, 4, 5, 7].includes(orientation);
  const turns: Readonly<Record<number, number>> = { 3: 180, 4: 180, 5: 270, 6: 90, 7: 90, 8: 270 };
  const first = await (mirrored ? picture.flop() : picture).raw().toBuffer({ resolveWithObject: true });
  return await overDots(first)
    .rotate(turns[orientation] ?? 0)
    .raw()
    .toBuffer({ resolveWithObject: true });
}

/** It holds all dots in memory several times over, and believes what it is told. */
const secondReader = { dots: 60_000_000, samples: 8, bits: 64, seconds: 20 };

function decoded(bytes: Buffer, name: string) {
  const [directory] = utif.decode(bytes);
  if (directory === undefined) throw damaged(name);
  utif.decodeImage(bytes, directory);
  const { width, height } = directory;
  checkSize(name, width, height);
  return { rgba: utif.toRGBA8(directory), width, height };
}

/** The odd ones (old-style JPEG inside, broken strips): another decoder, the same limits. */
async function bySecondReader({ name, bytes, page }: Place): Promise<Made> {
  checkSize(name, page.width, page.height);
  const { at, samples, bits } = page;
  if (page.width * page.height > secondReader.dots || samples > secondReader.samples || bits > secondReader.bits) {
    throw damaged(name);
  }
  const { rgba, width, height } = withinTime(secondReader.seconds, () => decoded(aloneDirectory(bytes, at), name));
  if (rgba.length !== width * height * 4 || rgba.every((value) => value === 0)) throw damaged(name);
  const raw = { width, height, channels: 4 } as const;
  const flat = sharp(rgba, { raw, limitInputPixels: false }).flatten({ background: 'white' });
  const dots = await turned(flat, page.orientation);
  const upright = (): Sharp => overDots(dots).timeout({ seconds: secondsLimit });
  return { ...(await madeOf(upright, page)), way: 'secondReader', upright };
}

const readTwice = 'The usual reader could not make out one of its pictures; a second one did. Look through its pages.';

/** Samples of 12 bits and their kin, and L*a*b*. */
async function byRareSamples({ name, bytes, page }: Place): Promise<Made> {
  checkSize(name, page.width, page.height);
  const eight = await rareSamples(bytes, page);
  if (eight === undefined) throw rareTiff(name, page) ?? damaged(name);
  const { data, ...info } = eight;
  const dots = await turned(overDots({ data, info }), page.orientation);
  const upright = (): Sharp => overDots(dots).timeout({ seconds: secondsLimit });
  return { ...(await madeOf(upright, page)), way: 'rareSamples', upright };
}

async function sheetOf(place: Place): Promise<OpenSheet> {
  const { page, name } = place;
  const beyond = beyondReach(name, page);
  if (beyond !== undefined) throw beyond;
  const turnedDensity = densityOf(page);
  const lies = page.orientation >= 5;
  const density =
    turnedDensity !== undefined && lies ? { ...turnedDensity, x: turnedDensity.y, y: turnedDensity.x } : turnedDensity;
  const seen = { orientation: 1, density, camera: false };
  if (isRareSamples(page)) return { ...seen, ...(await byRareSamples(place)), notes: [] };
  try {
    return { ...seen, ...(await bySharp(place)), notes: [] };
  } catch {
    try {
      return { ...seen, ...(await bySecondReader(place)), notes: [readTwice] };
    } catch {
      throw rareTiff(name, page) ?? damaged(name);
    }
  }
}

/** A TIFF whose directories only sharp can follow (BigTIFF): as many pages as it counts. */
async function bySharpAlone(path: string, packings: readonly number[]): Promise<readonly TiffPage[]> {
  const { pages = 1, width, height, density, space, depth } = await sharp(path, options).metadata();
  const page: TiffPage = {
    width,
    height,
    at: 0,
    bits: depth === 'uchar' || depth === 'char' ? 8 : depth === 'ushort' || depth === 'short' ? 16 : 32,
    samples: 3,
    photometric: space === 'b-w' ? 1 : 2,
    format: depth === 'float' || depth === 'double' ? 3 : 1,
    planes: false,
    predictor: 1,
    tiled: false,
    rowsPerStrip: height,
    grey: space === 'b-w',
    compression: 1,
    orientation: 1,
    aside: false,
    xResolution: density,
    yResolution: density,
    unit: 2,
  };
  return Array.from({ length: pages }, (_, n) => ({ ...page, compression: packings[n] ?? page.compression }));
}

/**
 * Opens a TIFF of one or many pages: faxes, LZW, JPEG inside. Small copies and masks beside a picture are no pages.
 * @throws LotfileError `file refused`
 */
export async function openTiff(path: string, name: string): Promise<OpenPictures> {
  const bytes = readFileSync(path);
  if (isCameraRaw(bytes)) throw cameraRaw(name);
  const listed = tiffPages(bytes);
  const all = listed.length > 0 ? listed : await bySharpAlone(path, bigPackings(bytes));
  const places = all.map((page, index) => ({ path, name, bytes, index, page }));
  const real = places.filter(({ page }) => !page.aside);
  const kept = real.length > 0 ? real : places;
  if (kept.length > mostPictures) throw damaged(name);
  return {
    count: kept.length,
    notes: [],
    async sheet(index) {
      const place = kept[index];
      if (place === undefined) throw damaged(name);
      return await sheetOf(place);
    },
  };
}
