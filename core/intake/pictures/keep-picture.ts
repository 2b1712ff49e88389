import type { PageFacts } from '../../vocabulary/lot.ts';
import type { KeepContext } from '../keep-context.ts';
import { clearStrips } from '../page/clear-strips.ts';
import { PageReader } from '../pdfium/page-reader.ts';
import { bmpTool, heicTool, oddTiffTool, pictureTool, recipes } from '../recipe.ts';
import { refused } from '../refusals.ts';
import type { Rendition } from '../rendition-model.ts';
import { cleanSheet } from './clean/clean-sheet.ts';
import { type GreyGrid, lookOf, pictureDifference } from './compare-picture.ts';
import { pictureTrouble } from './limits.ts';
import { type PictureLayout, pictureLayout, uprightMatrix } from './picture-layout.ts';
import type { OpenPictures, OpenSheet, PictureSort } from './picture-model.ts';
import { PictureFile } from './picture-page.ts';
import { needPictures, openPictures } from './read-picture.ts';

/** Two decoders differ by 1 or 2, with fine patterns by up to 9; a wrong turn by 30 and more. */
const allowedDifference = 10;
/** Half a dot of rounding at the edges weighs more, the smaller the picture: this much for one of a single point. */
const edgeDifference = 300;
/** What is left of a sheet once it stands in the file: enough to prove that it does. */
interface Laid {
  readonly layout: PictureLayout;
  readonly look: GreyGrid;
  readonly bytes: number;
  readonly way: OpenSheet['way'];
}

function layoutOf({ picture, orientation, density, camera }: OpenSheet): PictureLayout {
  const turned = orientation >= 5 && orientation <= 8;
  const pixels = turned ? { width: picture.height, height: picture.width } : picture;
  const seen = turned && density !== undefined ? { ...density, x: density.y, y: density.x } : density;
  return pictureLayout(pixels, seen, camera);
}

async function lay(file: PictureFile, sheet: OpenSheet): Promise<Laid> {
  const layout = layoutOf(sheet);
  const { width, height, place } = layout;
  file.add({ width, height, matrix: uprightMatrix(sheet.orientation, place), picture: sheet.picture });
  const look = await lookOf(sheet.upright(), place, sheet.picture.width * sheet.picture.height);
  return { layout, look, bytes: sheet.picture.data.length, way: sheet.way };
}

/** One sheet after the other: only one is ever held whole. */
async function layAll(context: KeepContext, opened: OpenPictures, sheetAt: (index: number) => Promise<OpenSheet>) {
  const first = await sheetAt(0);
  const notes = new Set([...opened.notes, ...first.notes]);
  const file = new PictureFile(context.job.output, opened.count, first.picture.profile !== undefined);
  try {
    const laid = [await lay(file, first)];
    for (let index = 1; index < opened.count; index += 1) {
      const sheet = await sheetAt(index);
      for (const note of sheet.notes) notes.add(note);
      laid.push(await lay(file, sheet));
      await context.onPage(index, opened.count);
    }
    file.finish(context.source.slice(0, 32));
    return { laid, notes: [...notes] };
  } finally {
    file.close();
  }
}

async function proved(context: KeepContext, laid: readonly Laid[]): Promise<readonly PageFacts[]> {
  const { name, output } = context.job;
  const reader = await PageReader.open(output);
  try {
    if (reader?.pageCount !== laid.length) throw refused(name, 'is a picture that can not be laid on a page.');
    const facts: PageFacts[] = [];
    for (const [page, { layout, look, bytes }] of laid.entries()) {
      const { width, height, place } = layout;
      const allowed = allowedDifference + edgeDifference / Math.min(place.width, place.height);
      const sight = await reader.read(page, bytes);
      if (sight === undefined) throw refused(name, 'is a picture that can not be laid on a page.');
      if ((await pictureDifference(look, { raster: sight.raster, height, place })) > allowed)
        throw refused(name, 'is a picture that two readers show differently.');
      const strips = clearStrips(sight.raster, { width, height });
      facts.push({ page, width, height, clearStrips: strips, openSaves: 0, extraRestores: 0, bytes, text: '' });
      await context.onPage(page + 1, laid.length);
    }
    return facts;
  } finally {
    reader?.close();
  }
}

function recipeOf(laid: readonly Laid[]): string {
  const said = new Set(laid.map(({ way, layout }) => `${recipes[way]}, ${layout.say}`));
  return [...said].join('; ');
}

function toolOf(sort: PictureSort, laid: readonly Laid[]): string {
  if (sort === 'heic') return heicTool;
  if (sort === 'bmp') return bmpTool;
  return laid.some(({ way }) => way === 'secondReader') ? oddTiffTool : pictureTool;
}

/**
 * Lays each picture of a file on a page of its own, upright, and proves by another reader that it shows. Where the job
 * asks for a clean-up, the cleaned picture is laid; the file itself stays as it came.
 * @throws LotfileError `file refused`
 */
export async function keepPicture(context: KeepContext, sort: PictureSort): Promise<Rendition> {
  const { name, input, recipe } = context.job;
  try {
    const opened = await openPictures(input, name, sort);
    needPictures(name, opened);
    const clean = recipe?.clean;
    const sheetAt = async (index: number): Promise<OpenSheet> => {
      const sheet = await opened.sheet(index);
      return clean === undefined ? sheet : await cleanSheet(sheet, clean);
    };
    const { laid, notes } = await layAll(context, opened, sheetAt);
    const pages = await proved(context, laid);
    return {
      source: context.source,
      recipe: recipeOf(laid),
      tool: toolOf(sort, laid),
      rung: 'picture to page',
      pages,
      sealed: false,
      notes,
    };
  } catch (problem) {
    throw pictureTrouble(name, problem);
  }
}
