import { createHash } from 'node:crypto';
import { fstatSync } from 'node:fs';
import type { Pace } from '../link/pace.ts';
import { readFully } from '../link/syntax/byte-window.ts';
import type { StreamPair } from './same-objects.ts';

const pieceSize = 1024 * 1024;

export interface ReadBytes {
  readonly sha256: string;
  readonly bytes: number;
  /** Offset in the finished file of the first byte that differs from its source's. */
  readonly differsAt: number | undefined;
}

/** One pass over the finished file: its hash, and every copied stream against the bytes it came from. */
export async function compareBytes(fd: number, pairs: readonly StreamPair[], pace: Pace): Promise<ReadBytes> {
  const { size } = fstatSync(fd);
  const sorted = [...pairs].sort((a, b) => a.at - b.at);
  const hash = createHash('sha256');
  const piece = Buffer.allocUnsafe(pieceSize);
  const other = Buffer.allocUnsafe(pieceSize);
  let first = 0;
  let differsAt: number | undefined;
  for (let at = 0; at < size; at += pieceSize) {
    const here = piece.subarray(0, readFully(fd, piece, at));
    hash.update(here);
    for (let i = first; i < sorted.length; i += 1) {
      const pair = sorted[i];
      if (pair === undefined || pair.at >= at + here.length) break;
      const start = Math.max(pair.at, at);
      const end = Math.min(pair.at + pair.length, at + here.length);
      const kept = other.subarray(0, Math.max(0, end - start));
      const got = readFully(pair.fd, kept, pair.from + start - pair.at);
      if (got !== kept.length || kept.compare(here, start - at, end - at) !== 0) differsAt ??= start;
      if (end === pair.at + pair.length && i === first) first += 1;
    }
    await pace.step('Reading the packet back', { done: Math.min(size, at + here.length), of: size, bytes: at });
  }
  return { sha256: hash.digest('hex'), bytes: size, differsAt };
}
