import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { LotfileError } from '../../core/desk/door.ts';

/** Names that Windows keeps for itself. */
const reserved = /^(con|prn|aux|nul|com\d|lpt\d)$/;

/** "Hạnh's house, Lot 7" -> "hanh-s-house-lot-7": readable, and a file name on every system. */
export function folderName(title: string): string {
  const plain = title
    .replace(/[đĐ]/g, 'd')
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .normalize('NFC')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60)
    .replace(/-+$/, '');
  return plain === '' || reserved.test(plain) ? `lot-${plain}`.replace(/-$/, '') : plain;
}

function isThere(error: unknown): boolean {
  return error instanceof Error && 'code' in error && error.code === 'EEXIST';
}

/**
 * Makes an empty folder for a lot; one that exists is never used.
 * @throws LotfileError `disk` where it can't be made.
 */
export function makeLotFolder(base: string, title: string): string {
  const name = folderName(title);
  try {
    mkdirSync(base, { recursive: true });
    for (let n = 1; ; n += 1) {
      const path = join(base, n === 1 ? name : `${name}-${n}`);
      try {
        mkdirSync(path);
        return path;
      } catch (error) {
        if (!isThere(error)) throw error;
      }
    }
  } catch (cause) {
    throw new LotfileError('disk', `A folder for the lot can't be made in "${base}".`, {
      about: base,
      next: 'See that the disk has room and that you may write there.',
      cause,
    });
  }
}
