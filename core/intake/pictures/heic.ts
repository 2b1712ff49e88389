import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import sharp, { type Sharp } from 'sharp';
import { jpegOf } from './dots-to-page.ts';
import { checkSize, damaged, mostPictures, options, secondsLimit } from './limits.ts';
import type { OpenPictures, OpenSheet } from './picture-model.ts';

/** The few things of libheif's JavaScript side that we use; it brings no types for this door. */
interface HeifImage {
  get_width(): number;
  get_height(): number;
  display(target: { readonly data: Uint8ClampedArray }, done: (shown: object | null) => void): void;
  free(): void;
}

interface HeifDecoder {
  decode(bytes: Buffer): readonly HeifImage[];
}

interface Heif {
  readonly HeifDecoder: new () => HeifDecoder;
}

function isHeif(value: unknown): value is Heif {
  return (
    typeof value === 'object' &&
    value !== null &&
    'HeifDecoder' in value &&
    typeof value.HeifDecoder === 'function' &&
    'decode' in value.HeifDecoder.prototype
  );
}

let loaded: Heif | undefined;

/** Two megabytes of WebAssembly: only read where a HEIC comes in. */
function libheif(): Heif {
  if (loaded !== undefined) return loaded;
  const found: unknown = createRequire(import.meta.url)('libheif-js/wasm-bundle');
  if (!isHeif(found)) throw new Error('The HEIC reader has another shape than expected.');
  loaded = found;
  return found;
}

/** Red, green, blue of an image as the file says it is to be seen: its own turns and mirrorings (irot, imir) applied. */
async function decoded(image: HeifImage, name: string): Promise<{ width: number; height: number; rgb: Buffer }> {
  const [width, height] = [image.get_width(), image.get_height()];
  checkSize(name, width, height);
  const data = new Uint8ClampedArray(width * height * 4);
  const shown = await new Promise<object | null>((resolve) => image.display({ data }, resolve));
  if (shown === null) throw damaged(name);
  const rgba = { width, height, channels: 4 } as const;
  const rgb = await sharp(data, { raw: rgba, limitInputPixels: false })
    .flatten({ background: 'white' })
    .raw()
    .toBuffer();
  return { width, height, rgb };
}

const severalShots = 'It holds several shots; each is kept as a page.';

/** What sharp tells of a HEIC without decoding it. */
interface HeicFacts {
  readonly profile: Buffer | undefined;
}

async function sheetOf(image: HeifImage, name: string, { profile }: HeicFacts): Promise<OpenSheet> {
  const { width, height, rgb } = await decoded(image, name);
  const upright = (): Sharp =>
    sharp(rgb, { raw: { width, height, channels: 3 }, limitInputPixels: false }).timeout({ seconds: secondsLimit });
  const fits = profile?.toString('latin1', 16, 20) === 'RGB ' ? profile : undefined;
  const picture = await jpegOf(upright(), 91, fits);
  return { picture, orientation: 1, density: undefined, camera: true, way: 'photo', notes: [], upright };
}

/**
 * Opens a HEIC or HEIF photo. What comes out of the decoder is upright already; the orientation in its EXIF block only
 * describes what was done and is never applied again (ISO/IEC 23008-12, 6.5.10 and A.2).
 * @throws LotfileError `file refused`
 */
export async function openHeic(path: string, name: string): Promise<OpenPictures> {
  const about = await sharp(path, options).metadata();
  const facts: HeicFacts = { profile: about.icc };
  if (about.compression === 'av1') return await openAvif(path);
  const images = new (libheif().HeifDecoder)().decode(readFileSync(path));
  if (images.length === 0 || images.length > mostPictures) throw damaged(name);
  return {
    count: images.length,
    notes: images.length > 1 ? [severalShots] : [],
    async sheet(index) {
      const image = images[index];
      if (image === undefined) throw damaged(name);
      try {
        return await sheetOf(image, name, facts);
      } finally {
        image.free();
      }
    },
  };
}

/** The same box with AV1 inside: sharp decodes that itself, turned upright by the file's own transforms. */
async function openAvif(path: string): Promise<OpenPictures> {
  const upright = (): Sharp => sharp(path, options).timeout({ seconds: secondsLimit });
  const picture = await jpegOf(upright().toColourspace('srgb'));
  const sheet: OpenSheet = {
    picture,
    orientation: 1,
    density: undefined,
    camera: true,
    way: 'photo',
    notes: [],
    upright,
  };
  return { count: 1, notes: [], sheet: () => Promise.resolve(sheet) };
}
