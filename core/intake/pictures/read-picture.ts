import { readFileSync } from 'node:fs';
import sharp, { type Sharp } from 'sharp';
import { refused } from '../refusals.ts';
import { openBmp } from './bmp.ts';
import { cameraNotes } from './camera-notes.ts';
import { dotsOf, jpegOf, pngRows } from './dots-to-page.ts';
import { openHeic } from './heic.ts';
import { jpegParts } from './jpeg-parts.ts';
import { options, pictureTrouble, secondsLimit } from './limits.ts';
import type { Density, OpenPictures, OpenSheet, PictureSort } from './picture-model.ts';
import type { PagePicture } from './picture-page.ts';
import { rareJpeg } from './rare-jpeg.ts';
import { openTiff } from './tiff.ts';

/** The picture upright, as the independent measure for what the page shows. */
function uprightPicture(path: string): Sharp {
  return sharp(path, options).autoOrient().timeout({ seconds: secondsLimit });
}

/** The stream itself where a PDF can hold it; undefined for CMYK, 12 bits, arithmetic coding and other rarities. */
function jpegVerbatim(bytes: Buffer): PagePicture | undefined {
  const parts = jpegParts(bytes);
  if (parts === undefined || parts.precision !== 8 || parts.frame > 2 || parts.namedRgb || !parts.whole)
    return undefined;
  const { width, height, components, profile, lean } = parts;
  if ((components !== 1 && components !== 3) || width === 0 || height === 0) return undefined;
  const space = components === 1 ? 'GRAY' : 'RGB ';
  const fits = profile !== undefined && profile.toString('latin1', 16, 20) === space;
  return { width, height, components, packing: 'jpeg', data: lean, profile: fits ? profile : undefined };
}

function squareDots(density: number | undefined): Density | undefined {
  return density === undefined ? undefined : { x: density, y: density, known: true };
}

const pressColours = 'Its colours are for printing presses; they were turned into screen colours.';
const firstOfMany = 'It moves, or holds several pictures: the first one is kept.';

async function onlySheet(path: string, name: string, sort: 'jpeg' | 'png' | 'webp' | 'gif'): Promise<OpenSheet> {
  const upright = () => uprightPicture(path);
  const rare = sort === 'jpeg' ? rareJpeg(readFileSync(path), name) : undefined;
  if (rare !== undefined) throw rare;
  const about = await sharp(path, options).metadata();
  await sharp(path, options).timeout({ seconds: secondsLimit }).stats();
  const { camera } = cameraNotes(about.exif);
  const seen = { density: squareDots(about.density), camera, upright, orientation: 1, notes: [] };
  const grey = about.space === 'b-w';
  if (sort === 'png') return { ...seen, picture: await pngRows(upright(), grey), way: 'png' };
  if (sort === 'jpeg') {
    const picture = about.channels === 4 ? undefined : jpegVerbatim(readFileSync(path));
    if (picture !== undefined) return { ...seen, picture, orientation: about.orientation ?? 1, way: 'jpeg' };
    const anew = await jpegOf(upright().toColourspace('srgb'));
    return { ...seen, picture: anew, way: 'jpegAnew', notes: [pressColours] };
  }
  const notes = (about.pages ?? 1) > 1 ? [firstOfMany] : [];
  const lossy = sort === 'webp' && readFileSync(path).subarray(0, 4096).includes('VP8 ');
  if (lossy) return { ...seen, picture: await jpegOf(upright().toColourspace('srgb')), way: 'photo', notes };
  return { ...seen, ...(await dotsOf(upright, { pixels: about.width * about.height, grey })), notes };
}

/**
 * Opens a file of pictures for keeping. Every dot is decoded once, so that a picture that breaks off is refused.
 * @throws LotfileError `file refused`
 */
export async function openPictures(path: string, name: string, sort: PictureSort): Promise<OpenPictures> {
  try {
    switch (sort) {
      case 'heic':
        return await openHeic(path, name);
      case 'tiff':
        return await openTiff(path, name);
      case 'bmp':
        return openBmp(path, name);
      case 'jpeg':
      case 'png':
      case 'webp':
      case 'gif': {
        const sheet = await onlySheet(path, name, sort);
        return { count: 1, notes: [], sheet: () => Promise.resolve(sheet) };
      }
    }
  } catch (problem) {
    throw pictureTrouble(name, problem);
  }
}

/** @throws LotfileError where no picture is left to keep */
export function needPictures(name: string, opened: OpenPictures): void {
  if (opened.count === 0) throw refused(name, 'holds no picture.');
}
