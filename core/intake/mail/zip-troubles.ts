import type { Entry } from 'yauzl';
import { LotfileError } from '../../vocabulary/errors.ts';
import { refused } from '../refusals.ts';

/** Beyond this a file that was packed so tightly is no paper but a bomb. */
const bomb = { bytes: 64 * 1024 * 1024, ratio: 200 };
/** APPNOTE 4.4.5: stored and deflated; yauzl reads no others. */
const readMethods = new Set([0, 8]);

const byHand = 'unpack the ZIP yourself and drop in what you need.';

/** APPNOTE 4.4.2 and 4.4.15: written on a Unix (3, or 19 for OS X), the upper half holds the mode; 0xA000 is a link. */
function isLink({ versionMadeBy, externalFileAttributes }: Entry): boolean {
  const system = versionMadeBy >>> 8;
  return (system === 3 || system === 19) && ((externalFileAttributes >>> 16) & 0xf000) === 0xa000;
}

/**
 * Why a file inside is not taken out: finishes `"name" ...`.
 * @param room bytes that may still be taken out
 */
export function whyNot(entry: Entry, room: number): string | undefined {
  const { compressedSize, uncompressedSize } = entry;
  if (entry.isEncrypted()) return `is locked with a password: ${byHand}`;
  if (isLink(entry)) return 'is only a link to a place on the computer where the ZIP was made.';
  if (!readMethods.has(entry.compressionMethod)) return `is packed in a way that is not read here: ${byHand}`;
  if (uncompressedSize > bomb.bytes && uncompressedSize / Math.max(1, compressedSize) > bomb.ratio)
    return 'unpacks to far more than any paper has.';
  if (uncompressedSize > room) return 'does not fit: together the files inside take more than 1 GB.';
  return undefined;
}

/** What yauzl and zlib say of the bytes of one file inside, as the person is told: finishes `"name" ...`. */
const byBytes: readonly (readonly [RegExp, string])[] = [
  [/more than it says|too many bytes/i, 'unpacks to more than the ZIP says: ask for it again, unpacked.'],
  [/not enough bytes/i, 'unpacks to less than the ZIP says: fetch or copy the ZIP again.'],
  [/overflows file bounds|unexpected E(OF|nd)/i, 'breaks off inside the ZIP: fetch or copy the ZIP again.'],
  [/local file header/i, 'is not where the ZIP says: fetch or copy the ZIP again.'],
];

function messageOf(problem: unknown): string {
  return problem instanceof Error ? problem.message : '';
}

export function whyBroken(problem: unknown): string {
  const found = byBytes.find(([pattern]) => pattern.test(messageOf(problem)));
  return found?.[1] ?? 'is damaged inside the ZIP: fetch or copy the ZIP again.';
}

const again = 'Fetch or copy it again.';

/** What yauzl says of the list of files at a ZIP's end. */
const byList: readonly (readonly [RegExp, say: string, next: string])[] = [
  [
    /strong encryption/i,
    'is a ZIP whose list of files is locked.',
    'Unpack it with its password and drop in the files.',
  ],
  [/multi-disk/i, 'is one part of a ZIP that was split up.', 'Put all parts together, unpack them, drop in the files.'],
  [
    /zip64|size mismatch/i,
    'is a ZIP that tells no sizes that can be.',
    'Ask for it again, or for the files without a ZIP.',
  ],
  [/directory record signature not found/i, 'is a ZIP that breaks off before its list of files.', again],
  [/comment length/i, 'is a ZIP with something else hung on at its end.', 'Unpack it yourself and drop in the files.'],
  [/central directory|unexpected EOF/i, 'is a ZIP whose list of files is damaged.', again],
];

/** A ZIP that can't be taken apart, as a sentence for the person. */
export function zipTrouble(name: string, problem: unknown): LotfileError {
  if (problem instanceof LotfileError) return problem;
  const found = byList.find(([pattern]) => pattern.test(messageOf(problem)));
  const [, say, next] = found ?? [undefined, 'is a ZIP that is damaged.', again];
  return refused(name, say, next);
}
