import { PDFDocument, type PDFPage, PDFRawStream } from 'pdf-lib';
import type { PhotoPlace } from '../../typeset/sheets/photo-sheet.ts';

/** A page of sound pages (a picture made a page when it was kept), and where it goes. */
export interface LaidPhoto {
  readonly pages: Uint8Array;
  readonly place: PhotoPlace;
}

interface Corners {
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
  readonly top: number;
}

/** Where the one picture stands on its page; pages made otherwise are laid in whole. */
function pictureBox(page: PDFPage): Corners {
  const { width, height } = page.getSize();
  const contents = page.node.Contents();
  const text =
    contents instanceof PDFRawStream ? Buffer.from(contents.contents.subarray(0, 400)).toString('latin1') : '';
  const matrix = /^q\n((?:-?[\d.]+ ){6})cm\n\/Im0 Do\nQ/.exec(text)?.[1]?.trim().split(' ').map(Number);
  if (matrix === undefined) return { left: 0, bottom: 0, right: width, top: height };
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = matrix;
  const xs = [e, a + e, c + e, a + c + e];
  const ys = [f, b + f, d + f, b + d + f];
  return { left: Math.min(...xs), bottom: Math.min(...ys), right: Math.max(...xs), top: Math.max(...ys) };
}

/**
 * Lays photos into drawn sheets, each fitted whole into its place and centred there.
 * The same sheets and photos give the same bytes.
 */
export async function layPhotos(sheets: Uint8Array, photos: readonly LaidPhoto[]): Promise<Uint8Array> {
  const load = { updateMetadata: false, parseSpeed: Number.POSITIVE_INFINITY };
  const document = await PDFDocument.load(sheets, load);
  for (const { pages, place } of photos) {
    const page = (await PDFDocument.load(pages, load)).getPage(0);
    const photo = await document.embedPage(page, pictureBox(page));
    const scale = Math.min(place.width / photo.width, place.height / photo.height);
    const size = { width: photo.width * scale, height: photo.height * scale };
    const x = place.x + (place.width - size.width) / 2;
    document.getPage(place.sheet).drawPage(photo, { x, y: place.y + (place.height - size.height) / 2, ...size });
  }
  return document.save({ useObjectStreams: false, objectsPerTick: Number.POSITIVE_INFINITY });
}
