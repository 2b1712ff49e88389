import { deflateSync } from 'node:zlib';
import type { Sharp } from 'sharp';
import type { PagePicture } from './picture-page.ts';
import { pngParts } from './png-parts.ts';

/** Colour pictures with more dots than this become JPEGs: 25 MB a page helps no office. */
const losslessLimit = 12_000_000;

/** Dots that stay as they are, packed as rows; `quick` suits pages of text, which no filter makes smaller. */
export async function pngRows(upright: Sharp, grey: boolean, quick = false): Promise<PagePicture> {
  const bytes = await upright
    .flatten({ background: 'white' })
    .toColourspace(grey ? 'b-w' : 'srgb')
    .png({ progressive: false, palette: false, compressionLevel: 6, adaptiveFiltering: !quick })
    .toBuffer();
  const parts = pngParts(bytes);
  if (parts === undefined) throw new Error('The picture came out in another form than asked for.');
  return { ...parts, packing: 'png rows' };
}

/** A JPEG of the picture as seen. */
export async function jpegOf(upright: Sharp, quality = 92, profile?: Buffer): Promise<PagePicture> {
  const { data, info } = await upright
    .flatten({ background: 'white' })
    .jpeg({ quality, chromaSubsampling: quality >= 92 ? '4:4:4' : '4:2:0' })
    .toBuffer({ resolveWithObject: true });
  const components = info.channels === 1 ? 1 : 3;
  return { width: info.width, height: info.height, components, packing: 'jpeg', data, profile };
}

/** Grey values to one bit a dot, rows led by PNG's filter "up" (W3C PNG, 9.2), which suits faxes. */
export function packTwoTone(grey: Uint8Array, width: number, height: number): Buffer {
  const across = Math.ceil(width / 8);
  const rows = Buffer.alloc((across + 1) * height);
  let above = Buffer.alloc(across);
  for (let y = 0; y < height; y += 1) {
    const row = Buffer.alloc(across);
    for (let x = 0; x < width; x += 1) {
      if ((grey[y * width + x] ?? 255) >= 128) row[x >> 3] = (row[x >> 3] ?? 0) | (0x80 >> (x & 7));
    }
    const at = y * (across + 1);
    rows[at] = 2;
    for (let byte = 0; byte < across; byte += 1) rows[at + 1 + byte] = ((row[byte] ?? 0) - (above[byte] ?? 0)) & 0xff;
    above = row;
  }
  return deflateSync(rows, { level: 9 });
}

/** A fax or a scan in black and white. */
export async function twoTone(upright: Sharp): Promise<PagePicture> {
  const { data, info } = await upright
    .flatten({ background: 'white' })
    .toColourspace('b-w')
    .raw()
    .toBuffer({ resolveWithObject: true });
  const { width, height, channels } = info;
  const grey = channels === 1 ? data : data.filter((_, index) => index % channels === 0);
  return { width, height, components: 1, bits: 1, packing: 'png rows', data: packTwoTone(grey, width, height) };
}

/** The way for dots that were stored without loss: rows, unless it is a large picture in colour. */
export async function dotsOf(
  open: () => Sharp,
  about: { readonly pixels: number; readonly grey: boolean },
): Promise<{ readonly picture: PagePicture; readonly way: 'dots' | 'photo' }> {
  if (!about.grey && about.pixels > losslessLimit)
    return { picture: await jpegOf(open().toColourspace('srgb')), way: 'photo' };
  return { picture: await pngRows(open(), about.grey), way: 'dots' };
}
