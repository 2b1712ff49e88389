import { PDFDocument } from 'pdf-lib';
import sharp from 'sharp';
import { drawGrey } from '../../../core/intake/ocr/page-picture.ts';
import { openDocument } from '../../../core/intake/pdfium/open-document.ts';
import { Chance } from './chance.ts';

function memorySource(bytes: Uint8Array) {
  return {
    length: bytes.length,
    read(position: number, target: Uint8Array) {
      if (position + target.length > bytes.length) return false;
      target.set(bytes.subarray(position, position + target.length));
      return true;
    },
    close: () => {},
  };
}

/** How a scanner of a small office treats a page: dots per inch, skew in degrees, blur, noise, fading, JPEG quality. */
export interface ScanLook {
  readonly dpi: number;
  readonly skew: number;
  readonly blur: number;
  readonly noise: number;
  readonly ink: number;
  readonly quality: number;
}

export function scanLook(index: number): ScanLook {
  const chance = new Chance(15485863 + index);
  return {
    dpi: chance.pick([200, 200, 200, 240, 300, 150]),
    skew: chance.between(-2.5, 2.5),
    blur: chance.between(0.3, 0.9),
    noise: chance.between(2, 16),
    ink: chance.between(0, 70),
    quality: chance.whole(45, 82),
  };
}

async function noisy(size: { width: number; height: number }, look: ScanLook, seed: number): Promise<Buffer> {
  const chance = new Chance(seed);
  // A tile of seeded noise, laid over the page again and again: libvips' own noise differs from run to run.
  const side = 256;
  const tile = Buffer.alloc(side * side);
  for (let at = 0; at < tile.length; at += 1) {
    const bell = chance.next() + chance.next() + chance.next() + chance.next() - 2;
    tile[at] = Math.max(0, Math.min(255, 128 + bell * look.noise * 1.7));
  }
  const wide = Buffer.alloc(size.width * size.height);
  for (let y = 0; y < size.height; y += 1) {
    const shift = ((Math.floor(y / side) * 97) % side) + 0;
    for (let x = 0; x < size.width; x += 1) {
      wide[y * size.width + x] = tile[(y % side) * side + ((x + shift) % side)] ?? 128;
    }
  }
  return wide;
}

/** The page as a scanner would hand it over: a PDF with one grey JPEG and no text layer. */
export async function scanDocument(pdf: Uint8Array, index: number): Promise<Uint8Array> {
  const look = scanLook(index);
  const outcome = await openDocument(memorySource(pdf));
  if (!outcome.ok) throw new Error(outcome.why);
  const picture = drawGrey(outcome.document, 0, look.dpi / 72);
  outcome.document.close();
  if (picture === undefined) throw new Error('no picture');
  const { width, height } = picture;
  const noise = await noisy({ width, height }, look, 32452843 + index);
  // Faded ink first, then the lens, then the sheet lies askew.
  const page = await sharp(picture.pixels, { raw: { width, height, channels: 1 } })
    .linear((245 - look.ink) / 255, look.ink)
    .blur(look.blur)
    .rotate(look.skew, { background: '#f4f4f4' })
    .resize(width, height, { fit: 'cover' })
    .toColourspace('b-w')
    .raw()
    .toBuffer();
  for (let at = 0; at < page.length; at += 1)
    page[at] = Math.max(0, Math.min(255, (page[at] ?? 0) + (noise[at] ?? 128) - 128));
  const jpeg = await sharp(page, { raw: { width, height, channels: 1 } })
    .jpeg({ quality: look.quality })
    .toBuffer();
  const file = await PDFDocument.create({ updateMetadata: false });
  const sheet = file.addPage([612, 792]);
  sheet.drawImage(await file.embedJpg(jpeg), { x: 0, y: 0, width: 612, height: 792 });
  return file.save({ useObjectStreams: false });
}
