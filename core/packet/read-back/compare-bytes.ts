import type { Pace } from '../link/pace.ts';
import { readFully } from '../link/syntax/byte-window.ts';
import type { StreamPair } from './same-objects.ts';

const pieceSize = 512 * 1024;

/**
 * Compares every copied stream, at its place in the finished file, with the bytes it came from.
 * @returns offset in the finished file of the first byte of a piece that differs; undefined when all agree.
 */
export async function compareBytes(fd: number, pairs: readonly StreamPair[], pace: Pace): Promise<number | undefined> {
  const sorted = [...pairs].sort((a, b) => a.at - b.at);
  const theirs = Buffer.allocUnsafe(pieceSize);
  const mine = Buffer.allocUnsafe(pieceSize);
  for (const [index, pair] of sorted.entries()) {
    for (let done = 0; done < pair.length; done += pieceSize) {
      const wanted = Math.min(pieceSize, pair.length - done);
      const got = readFully(fd, theirs.subarray(0, wanted), pair.at + done);
      const kept = readFully(pair.fd, mine.subarray(0, wanted), pair.from + done);
      if (got !== wanted || kept !== wanted || theirs.compare(mine, 0, wanted, 0, wanted) !== 0) return pair.at + done;
    }
    await pace.step('Reading the packet back', { done: index + 1, of: sorted.length, bytes: pair.at });
  }
  return undefined;
}
