import { createHash } from 'node:crypto';
import { closeSync, fstatSync, openSync } from 'node:fs';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { LinkSource } from '../link-order.ts';
import type { Pace } from './pace.ts';
import { readFully } from './syntax/byte-window.ts';
import { damaged } from './syntax/damage.ts';
import { PdfFile } from './syntax/pdf-file.ts';

export interface OpenSource {
  readonly id: string;
  /** 1-based place in the order. */
  readonly place: number;
  readonly file: PdfFile;
}

const pieceSize = 1024 * 1024;

/** Opens all sources after checking that each is, byte for byte, what was kept. @throws LotfileError `paper damaged`, `disk`, `stopped` */
export async function openSources(sources: readonly LinkSource[], pace: Pace): Promise<readonly OpenSource[]> {
  const opened: OpenSource[] = [];
  try {
    for (const [index, source] of sources.entries()) {
      const fd = openKept(source.path, source.title);
      try {
        await checkHash(fd, source, pace);
        opened.push({ id: source.id, place: index + 1, file: new PdfFile(source.title, fd) });
      } catch (error) {
        closeSync(fd);
        throw error;
      }
    }
    return opened;
  } catch (error) {
    for (const { file } of opened) file.close();
    throw error;
  }
}

/** @throws LotfileError `disk` */
export function openKept(path: string, title: string): number {
  try {
    return openSync(path, 'r');
  } catch (cause) {
    throw new LotfileError('disk', `The kept pages of "${title}" can't be opened.`, {
      about: title,
      next: 'See that the lot folder is complete and readable, or put back a backup of it.',
      cause,
    });
  }
}

async function checkHash(fd: number, source: LinkSource, pace: Pace): Promise<void> {
  const { size } = fstatSync(fd);
  const hash = createHash('sha256');
  const piece = Buffer.allocUnsafe(Math.min(pieceSize, Math.max(1, size)));
  for (let at = 0; at < size; ) {
    const got = readFully(fd, piece, at);
    if (got === 0) break;
    hash.update(got === piece.length ? piece : piece.subarray(0, got));
    at += got;
    await pace.step('Checking kept papers', { done: at, of: size, bytes: at });
  }
  if (hash.digest('hex') !== source.sha256.toLowerCase()) {
    throw damaged(source.title, 'the file changed since it was kept');
  }
}
