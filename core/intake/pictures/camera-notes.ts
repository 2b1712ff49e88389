/** What a picture's EXIF notes tell that matters for its size on paper. */
export interface CameraNotes {
  /** Taken by a camera: its density says nothing about the size of what it shows. */
  readonly camera: boolean;
}

/** ExposureTime, FNumber, FocalLength, LensModel: a scanner writes none of them (JEITA CP-3451, 4.6.5). */
const cameraTags = new Set([0x829a, 0x829d, 0x920a, 0xa434]);
const exifPointer = 0x8769;

/** Reads the EXIF block that sharp hands out ("Exif\0\0" + TIFF). Damage reads as no notes. */
export function cameraNotes(exif: Buffer | undefined): CameraNotes {
  if (exif === undefined || exif.length < 14) return { camera: false };
  const tiff = exif.toString('latin1', 0, 4) === 'Exif' ? exif.subarray(6) : exif;
  const little = tiff.toString('latin1', 0, 2) === 'II';
  const short = (at: number) => (at + 2 > tiff.length ? 0 : little ? tiff.readUInt16LE(at) : tiff.readUInt16BE(at));
  const long = (at: number) => (at + 4 > tiff.length ? 0 : little ? tiff.readUInt32LE(at) : tiff.readUInt32BE(at));
  const tagsAt = (start: number): ReadonlyMap<number, number> => {
    const count = Math.min(short(start), 500);
    return new Map(
      Array.from({ length: count }, (_, index) => [short(start + 2 + index * 12), start + 2 + index * 12]),
    );
  };
  const main = tagsAt(long(4));
  const pointer = main.get(exifPointer);
  const own = pointer === undefined ? new Map<number, number>() : tagsAt(long(pointer + 8));
  return { camera: [...own.keys()].some((tag) => cameraTags.has(tag)) };
}
