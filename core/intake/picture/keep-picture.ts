import type { KeepContext } from '../keep-context.ts';
import { clearStrips } from '../page/clear-strips.ts';
import { fileSource } from '../pdfium/byte-source.ts';
import { openDocument } from '../pdfium/open-document.ts';
import { type PageSight, readPage } from '../pdfium/read-page.ts';
import { pictureTool, recipes } from '../recipe.ts';
import { refused } from '../refusals.ts';
import type { Rendition } from '../rendition-model.ts';
import { pictureDifference } from './compare-picture.ts';
import { type PictureLayout, pictureLayout, uprightMatrix } from './picture-layout.ts';
import { writePicturePage } from './picture-page.ts';
import { openPicture, uprightPicture } from './read-picture.ts';

/** Two decoders and two ways of making a picture smaller differ by 1 or 2; a wrong turn by 30 and more. */
const allowedDifference = 6;

async function lookAt(path: string): Promise<PageSight | undefined> {
  const outcome = await openDocument(fileSource(path));
  if (!outcome.ok) return undefined;
  try {
    return outcome.document.pageCount === 1 ? readPage(outcome.document, 0) : undefined;
  } finally {
    outcome.document.close();
  }
}

/**
 * Lays a JPEG or PNG on a page of its own, upright, without loss, and proves by another reader that it shows.
 * @throws LotfileError `file refused`
 */
export async function keepPicture(context: KeepContext, sort: 'jpeg' | 'png'): Promise<Rendition> {
  const { name, input, output } = context.job;
  const opened = await openPicture(input, name, sort);
  const { picture, orientation } = opened;
  const turned = orientation >= 5 && orientation <= 8;
  const pixels = turned ? { width: picture.height, height: picture.width } : picture;
  const layout: PictureLayout = pictureLayout(pixels, opened.density, opened.camera);
  const { width, height, place } = layout;
  const matrix = uprightMatrix(orientation, place);
  writePicturePage({ width, height, matrix, picture, id: context.source.slice(0, 32) }, output);
  const sight = await lookAt(output);
  if (sight === undefined) throw refused(name, 'is a picture that can not be laid on a page.');
  const difference = await pictureDifference(uprightPicture(input), { raster: sight.raster, height, place });
  if (difference > allowedDifference) throw refused(name, 'is a picture that two readers show differently.');
  await context.onPage(1, 1);
  const strips = clearStrips(sight.raster, { width, height });
  const page = { page: 0, width, height, clearStrips: strips, openSaves: 0, extraRestores: 0, text: '' };
  return {
    source: context.source,
    recipe: `${recipes[opened.way]}, ${layout.say}`,
    tool: pictureTool,
    rung: 'picture to page',
    pages: [{ ...page, bytes: picture.data.length }],
    sealed: false,
    notes:
      opened.way === 'jpegAnew' ? ['Its colours are for printing presses; they were turned into screen colours.'] : [],
  };
}
