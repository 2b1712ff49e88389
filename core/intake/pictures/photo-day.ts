import { type Day, isDay } from '../../vocabulary/days.ts';

/** DateTimeOriginal, DateTimeDigitized, and DateTime of the picture itself (JEITA CP-3451, 4.6.5 and 4.6.4). */
const tags = { original: 0x9003, digitised: 0x9004, plain: 0x0132, exif: 0x8769 } as const;
const mostTags = 500;

/**
 * The day a photo was taken, by the camera's clock, from the EXIF block that sharp hands out ("Exif\0\0" + TIFF).
 * @returns undefined where none is told, or none that is a day ("0000:00:00" from a camera never set).
 */
export function photoDay(exif: Buffer | undefined): Day | undefined {
  if (exif === undefined || exif.length < 14) return undefined;
  const tiff = exif.toString('latin1', 0, 4) === 'Exif' ? exif.subarray(6) : exif;
  const little = tiff.toString('latin1', 0, 2) === 'II';
  const short = (at: number) => (at + 2 > tiff.length ? 0 : little ? tiff.readUInt16LE(at) : tiff.readUInt16BE(at));
  const long = (at: number) => (at + 4 > tiff.length ? 0 : little ? tiff.readUInt32LE(at) : tiff.readUInt32BE(at));
  const entry = (directory: number, tag: number): number | undefined => {
    const count = Math.min(short(directory), mostTags);
    const at = Array.from({ length: count }, (_, n) => directory + 2 + n * 12).find((each) => short(each) === tag);
    return at === undefined ? undefined : at + 8;
  };
  const dayAt = (field: number | undefined): Day | undefined => {
    const at = field === undefined ? 0 : long(field);
    const match = /^(\d{4})[:-](\d{2})[:-](\d{2})/.exec(at === 0 ? '' : tiff.toString('latin1', at, at + 10));
    const text = match === null ? '' : `${match[1]}-${match[2]}-${match[3]}`;
    return isDay(text) ? text : undefined;
  };
  const main = long(4);
  const pointer = entry(main, tags.exif);
  const own = pointer === undefined ? undefined : long(pointer);
  if (own !== undefined) {
    const day = dayAt(entry(own, tags.original)) ?? dayAt(entry(own, tags.digitised));
    if (day !== undefined) return day;
  }
  return dayAt(entry(main, tags.plain));
}
