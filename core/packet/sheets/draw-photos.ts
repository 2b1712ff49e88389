import { PDFDocument } from 'pdf-lib';
import type { PhotoPlace } from '../../typeset/sheets/photo-sheet.ts';

/** A JPEG in print size, upright, and where it goes. */
export interface LaidPhoto {
  readonly picture: Uint8Array;
  readonly place: PhotoPlace;
}

/**
 * Lays photos into drawn sheets, each fitted whole into its place and centred there.
 * The same sheets and photos give the same bytes.
 */
export async function layPhotos(sheets: Uint8Array, photos: readonly LaidPhoto[]): Promise<Uint8Array> {
  const document = await PDFDocument.load(sheets, { updateMetadata: false, parseSpeed: Number.POSITIVE_INFINITY });
  for (const { picture, place } of photos) {
    const photo = await document.embedJpg(picture);
    const scale = Math.min(place.width / photo.width, place.height / photo.height);
    const size = { width: photo.width * scale, height: photo.height * scale };
    const x = place.x + (place.width - size.width) / 2;
    document.getPage(place.sheet).drawImage(photo, { x, y: place.y + (place.height - size.height) / 2, ...size });
  }
  return document.save({ useObjectStreams: false, objectsPerTick: Number.POSITIVE_INFINITY });
}
