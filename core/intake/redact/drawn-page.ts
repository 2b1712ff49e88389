import sharp from 'sharp';
import type { PageFacts, SeenRect } from '../../vocabulary/lot.ts';
import { readLayer } from '../ocr/page-words.ts';
import { drawPage } from '../pdfium/draw-page.ts';
import type { ReaderDocument } from '../pdfium/open-document.ts';
import { jpegOf, pngRows } from '../pictures/dots-to-page.ts';
import type { PagePicture } from '../pictures/picture-page.ts';
import { linesOf, plainText } from '../reading/page-text.ts';
import type { Value } from '../regular/values.ts';
import { paintOver } from './paint.ts';
import { touches } from './places.ts';

/** Dots an inch at which offices print. */
const printed = 300 / 72;
/** A grey page without loss, unless that takes more than this: then it is a scan, and stays a JPEG. */
const losslessBytes = 1_500_000;

async function packed({ width, height, channels, pixels }: Drawn): Promise<PagePicture> {
  const over = () => sharp(pixels, { raw: { width, height, channels }, limitInputPixels: false });
  if (channels === 3) return await jpegOf(over(), 92);
  const rows = await pngRows(over(), true, true);
  return rows.data.length <= losslessBytes ? rows : await jpegOf(over().toColourspace('b-w'), 92);
}

interface Drawn {
  readonly width: number;
  readonly height: number;
  readonly channels: 1 | 3;
  readonly pixels: Uint8Array;
}

/**
 * A page drawn anew at print resolution with places painted black: what lay beneath was never part of it.
 * @throws Error where the reader can't draw it
 */
export async function drawnPage(
  document: ReaderDocument,
  facts: PageFacts,
  places: readonly SeenRect[],
): Promise<PagePicture> {
  const drawn = drawPage(document, facts.page, printed);
  if (drawn === undefined) throw new Error(`Page ${facts.page + 1} can't be drawn.`);
  paintOver(drawn, facts, places);
  return await packed(drawn);
}

/** The words of a page that stand outside of the places, for the search; whole words only. */
export function textOutside(document: ReaderDocument, facts: PageFacts, places: readonly SeenRect[]): string {
  const layer = readLayer(document, facts.page);
  if (layer === undefined) return '';
  const unit = facts.width / Math.max(1, layer.width);
  const words = layer.words.filter(({ box }) => {
    const seen = { x: box.x * unit, y: box.y * unit, width: box.width * unit, height: box.height * unit };
    return !places.some((place) => touches(place, seen));
  });
  const { width, height } = layer;
  return plainText({ page: facts.page, width, height, source: 'text layer', turn: 0, lean: 0, lines: linesOf(words) });
}

/** The dictionary of a picture as the regular dialect has it. */
export function pictureDict({ width, height, components, packing }: PagePicture): Value {
  const rows = new Map<string, Value>([
    ['BitsPerComponent', 8],
    ['Colors', components],
    ['Columns', width],
    ['Predictor', 15],
  ]);
  return new Map<string, Value>([
    ['BitsPerComponent', 8],
    ['ColorSpace', { name: components === 1 ? 'DeviceGray' : 'DeviceRGB' }],
    ...(packing === 'jpeg' ? [] : [['DecodeParms', rows] as const]),
    ['Filter', { name: packing === 'jpeg' ? 'DCTDecode' : 'FlateDecode' }],
    ['Height', height],
    ['Subtype', { name: 'Image' }],
    ['Type', { name: 'XObject' }],
    ['Width', width],
  ]);
}
