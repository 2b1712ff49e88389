import { closeSync, openSync, readSync } from 'node:fs';
import sharp, { type Sharp } from 'sharp';
import type { Day } from '../../vocabulary/days.ts';
import { drawGrey } from '../ocr/page-picture.ts';
import { fileSource } from '../pdfium/byte-source.ts';
import { openDocument } from '../pdfium/open-document.ts';
import { refused } from '../refusals.ts';
import { type FileSort, sniff, sniffLength } from '../sniff.ts';
import type { GlimpseDone, GlimpseJob } from './glimpse-model.ts';
import { options, pictureTrouble, secondsLimit } from './limits.ts';
import { photoDay } from './photo-day.ts';
import { isPictureSort } from './picture-model.ts';
import { openPictures } from './read-picture.ts';

/** Dots along the longer side: sharp at 160 points on a screen of two dots a point. */
const onScreen = { width: 320, height: 320 };
/** On paper the eye comes nearer than on a screen. */
const qualities = { screen: 72, print: 80 };

function sniffed(path: string): FileSort {
  const head = Buffer.alloc(sniffLength);
  const fd = openSync(path, 'r');
  try {
    return sniff(head.subarray(0, readSync(fd, head)));
  } finally {
    closeSync(fd);
  }
}

async function pdfPage({ input, name, room = onScreen }: GlimpseJob): Promise<Sharp> {
  const outcome = await openDocument(fileSource(input));
  if (!outcome.ok) throw refused(name, 'can’t be opened.');
  try {
    const page = drawGrey(outcome.document, 0, (0.6 * Math.max(room.width, room.height)) / onScreen.width);
    if (page === undefined) throw refused(name, 'has no page that can be drawn.');
    const { width, height, pixels } = page;
    return sharp(pixels, { raw: { width, height, channels: 1 } });
  } finally {
    outcome.document.close();
  }
}

/** Sharp opens the usual sorts small at once; the others go through the readers that keeping uses. */
async function upright(job: GlimpseJob, sort: FileSort): Promise<Sharp> {
  if (sort === 'pdf') return pdfPage(job);
  if (!isPictureSort(sort)) throw refused(job.name, 'is no picture and no PDF.', 'Choose the photo or scan itself.');
  if (sort === 'jpeg' || sort === 'png' || sort === 'webp' || sort === 'gif') {
    return sharp(job.input, options).autoOrient().timeout({ seconds: secondsLimit });
  }
  const opened = await openPictures(job.input, job.name, sort);
  return (await opened.sheet(0)).upright();
}

async function takenOn(path: string, sort: FileSort): Promise<Day | undefined> {
  if (sort === 'pdf' || sort === 'bmp' || sort === 'gif') return undefined;
  const { exif } = await sharp(path, options).metadata();
  return photoDay(exif);
}

/**
 * Makes the small picture of a photo or of a PDF's first page, and reads the day the photo was taken.
 * @throws LotfileError `file refused`
 */
export async function takeGlimpse(job: GlimpseJob): Promise<GlimpseDone> {
  try {
    const sort = sniffed(job.input);
    const { room = onScreen } = job;
    const quality = room === onScreen ? qualities.screen : qualities.print;
    const small = (await upright(job, sort)).resize(room.width, room.height, {
      fit: 'inside',
      withoutEnlargement: true,
    });
    const { width, height } = await small
      .flatten({ background: 'white' })
      .jpeg({ quality, mozjpeg: true })
      .toFile(job.output);
    return { glimpse: { width, height }, taken: await takenOn(job.input, sort) };
  } catch (problem) {
    throw pictureTrouble(job.name, problem);
  }
}
