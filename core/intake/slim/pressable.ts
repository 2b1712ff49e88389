import { crc32, inflateSync } from 'node:zlib';
import sharp, { type Sharp } from 'sharp';
import { jpegParts } from '../pictures/jpeg-parts.ts';
import type { RegularFile } from '../regular/regular-file.ts';
import { type Dict, isDict, isList, nameOf, type Value } from '../regular/values.ts';

/** A picture in a file that can be encoded anew. */
export interface Pressable {
  readonly number: number;
  readonly width: number;
  readonly height: number;
  readonly components: 1 | 3;
  readonly packing: 'jpeg' | 'png rows' | 'plain rows';
}

/** Smaller ones are logos and marks: they weigh nothing. */
const leastDots = 60_000;
const mostDots = 200_000_000;

function componentsOf(file: RegularFile, space: Value): 1 | 3 | undefined {
  const name = nameOf(space);
  if (name === 'DeviceGray' || name === 'CalGray') return 1;
  if (name === 'DeviceRGB' || name === 'CalRGB') return 3;
  if (!isList(space)) return undefined;
  const [family, profile] = space;
  const kind = nameOf(file.resolve(family));
  if (kind === 'CalGray') return 1;
  if (kind === 'CalRGB') return 3;
  const count = kind === 'ICCBased' ? file.resolve(file.dict(profile).get('N')) : undefined;
  return count === 1 || count === 3 ? count : undefined;
}

function packingOf(file: RegularFile, dict: Dict): Pressable['packing'] | undefined {
  const filter = file.resolve(dict.get('Filter'));
  const [first, second] = isList(filter) ? filter : [filter];
  const parms = file.resolve(dict.get('DecodeParms'));
  const own = file.resolve(isList(parms) ? (parms[0] ?? null) : parms);
  if (second !== undefined) return undefined;
  switch (nameOf(file.resolve(first))) {
    case 'DCTDecode':
      return isDict(own) ? undefined : 'jpeg';
    case 'FlateDecode': {
      const predictor = isDict(own) ? file.resolve(own.get('Predictor')) : null;
      if (predictor === null || predictor === 1) return 'plain rows';
      return typeof predictor === 'number' && predictor >= 10 ? 'png rows' : undefined;
    }
    default:
      return undefined;
  }
}

/** What can be done with a stream; undefined for masks, two-tone pictures, palettes, rare packings and small ones. */
export function pressable(file: RegularFile, number: number): Pressable | undefined {
  const dict = file.dict({ ref: number });
  if (nameOf(file.resolve(dict.get('Subtype'))) !== 'Image') return undefined;
  if (dict.has('Decode') || dict.has('Mask') || file.resolve(dict.get('ImageMask')) === true) return undefined;
  if (file.resolve(dict.get('BitsPerComponent')) !== 8) return undefined;
  const [width, height] = [file.resolve(dict.get('Width')), file.resolve(dict.get('Height'))];
  if (typeof width !== 'number' || typeof height !== 'number') return undefined;
  const components = componentsOf(file, file.resolve(dict.get('ColorSpace')));
  const packing = packingOf(file, dict);
  if (components === undefined || packing === undefined) return undefined;
  const dots = width * height;
  return dots < leastDots || dots > mostDots ? undefined : { number, width, height, components, packing };
}

function chunk(name: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  check.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, check]);
}

/** Rows with PNG's filters are what a PNG holds: they only lack its frame (W3C PNG, 5.2). */
function framed({ width, height, components }: Pressable, rows: Buffer): Buffer {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, components === 1 ? 0 : 2, 0, 0, 0], 8);
  const signature = Buffer.from('\u0089PNG\r\n\u001a\n', 'latin1');
  return Buffer.concat([signature, chunk('IHDR', head), chunk('IDAT', rows), chunk('IEND', Buffer.alloc(0))]);
}

/** The picture of a stream; its values are taken as they are, whatever profile belongs to them. */
export function openPressable(file: RegularFile, picture: Pressable): Sharp | undefined {
  const bytes = file.streamBytes(picture.number);
  if (bytes === undefined) return undefined;
  const { width, height, components, packing } = picture;
  if (packing === 'plain rows') {
    const data = inflateSync(bytes, { maxOutputLength: width * height * components + 1024 });
    const whole = data.subarray(0, width * height * components);
    if (whole.length < width * height * components) return undefined;
    return sharp(whole, { raw: { width, height, channels: components }, limitInputPixels: false });
  }
  if (packing === 'png rows') return sharp(framed(picture, bytes), { limitInputPixels: mostDots });
  const parts = jpegParts(bytes);
  if (parts === undefined || parts.components !== components || parts.namedRgb) return undefined;
  return parts.width === width && parts.height === height
    ? sharp(parts.lean, { limitInputPixels: mostDots })
    : undefined;
}
