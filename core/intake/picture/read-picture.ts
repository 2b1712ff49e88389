import { readFileSync } from 'node:fs';
import sharp, { type Sharp, type SharpOptions } from 'sharp';
import { refused } from '../refusals.ts';
import { cameraNotes } from './camera-notes.ts';
import { jpegParts } from './jpeg-parts.ts';
import type { PagePicture } from './picture-page.ts';
import { pngParts } from './png-parts.ts';

sharp.cache(false);
sharp.concurrency(1);

/** A sheet of 36 x 48 inches at 300 dpi has 155 million. */
const pixelLimit = 200_000_000;
const secondsLimit = 60;

const options: SharpOptions = { limitInputPixels: pixelLimit, failOn: 'truncated' };

/** A picture opened for keeping. */
export interface OpenPicture {
  readonly picture: PagePicture;
  /** EXIF 1-8 that the page has to undo; 1 where the pixels are upright already. */
  readonly orientation: number;
  readonly density: number | undefined;
  readonly camera: boolean;
  readonly way: 'jpeg' | 'jpegAnew' | 'png';
}

/** The picture upright, as the independent measure for what the page shows. */
export function uprightPicture(path: string): Sharp {
  return sharp(path, options).autoOrient().timeout({ seconds: secondsLimit });
}

async function jpegAnew(path: string): Promise<PagePicture> {
  const { data, info } = await uprightPicture(path)
    .toColourspace('srgb')
    .jpeg({ quality: 92, chromaSubsampling: '4:4:4' })
    .toBuffer({ resolveWithObject: true });
  const components = info.channels === 1 ? 1 : 3;
  return { width: info.width, height: info.height, components, packing: 'jpeg', data };
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

async function pngRows(path: string, grey: boolean): Promise<PagePicture> {
  const bytes = await uprightPicture(path)
    .flatten({ background: 'white' })
    .toColourspace(grey ? 'b-w' : 'srgb')
    .png({ progressive: false, palette: false, compressionLevel: 6, adaptiveFiltering: true })
    .toBuffer();
  const parts = pngParts(bytes);
  if (parts === undefined) throw new Error('The picture came out in another form than asked for.');
  return { ...parts, packing: 'png rows' };
}

/**
 * Reads a JPEG or PNG for a page. Every pixel is decoded once here, so that a picture that breaks off is refused.
 * @throws LotfileError `file refused`
 */
export async function openPicture(path: string, name: string, sort: 'jpeg' | 'png'): Promise<OpenPicture> {
  try {
    const about = await sharp(path, options).metadata();
    await sharp(path, options).timeout({ seconds: secondsLimit }).stats();
    const seen = { density: about.density, camera: cameraNotes(about.exif).camera };
    if (sort === 'png')
      return { picture: await pngRows(path, about.space === 'b-w'), orientation: 1, ...seen, way: 'png' };
    const picture = about.channels === 4 ? undefined : jpegVerbatim(readFileSync(path));
    if (picture === undefined) return { picture: await jpegAnew(path), orientation: 1, ...seen, way: 'jpegAnew' };
    return { picture, orientation: about.orientation ?? 1, ...seen, way: 'jpeg' };
  } catch (problem) {
    const why = problem instanceof Error ? problem.message : '';
    if (/pixel limit/i.test(why))
      throw refused(name, 'is larger than any sheet of paper.', 'Save it smaller and drop that in.');
    if (/timeout/i.test(why)) throw refused(name, 'takes longer to read than any sound picture.');
    throw refused(
      name,
      'is a picture that breaks off or is damaged.',
      'Fetch it again, or take the picture anew, and drop that in.',
    );
  }
}
