import sharp, { type SharpOptions } from 'sharp';
import { LotfileError } from '../../vocabulary/errors.ts';
import { refused } from '../refusals.ts';

sharp.cache(false);
sharp.concurrency(1);

/** A sheet of 36 x 48 inches at 300 dpi has 155 million. */
export const pixelLimit = 200_000_000;
export const secondsLimit = 60;
/** More pages than any fax or scan in one file has. */
export const mostPictures = 2000;

export const options: SharpOptions = { limitInputPixels: pixelLimit, failOn: 'truncated' };

/** @throws LotfileError where a picture claims more dots than any sheet of paper has, or none */
export function checkSize(name: string, width: number, height: number): void {
  if (width * height > pixelLimit)
    throw refused(name, 'is larger than any sheet of paper.', 'Save it smaller and drop that in.');
  if (!(width >= 1 && height >= 1)) throw damaged(name);
}

export function damaged(name: string): LotfileError {
  return refused(
    name,
    'is a picture that breaks off or is damaged.',
    'Fetch it again, or take the picture anew, and drop that in.',
  );
}

/** A sound picture of a sort that no reader here takes: which one, and what to save it as. */
export function otherSort(name: string, say: string): LotfileError {
  return refused(
    name,
    say,
    'Open it in a picture program, save it as PNG or as a usual JPEG (8 bits a colour), and drop that in.',
  );
}

/** What went wrong while decoding, as a sentence for the person. */
export function pictureTrouble(name: string, problem: unknown): LotfileError {
  if (problem instanceof LotfileError) return problem;
  const why = problem instanceof Error ? problem.message : '';
  if (/pixel limit/i.test(why))
    return refused(name, 'is larger than any sheet of paper.', 'Save it smaller and drop that in.');
  if (/timeout/i.test(why)) return refused(name, 'takes longer to read than any sound picture.');
  return damaged(name);
}
