import { createHash } from 'node:crypto';
import { closeSync, openSync, readSync } from 'node:fs';

/** SHA-256 of a file in lower-case hex, read in blocks. */
export function fileHash(path: string): string {
  const hash = createHash('sha256');
  const block = Buffer.alloc(1 << 20);
  const fd = openSync(path, 'r');
  try {
    for (let got = readSync(fd, block); got > 0; got = readSync(fd, block)) hash.update(block.subarray(0, got));
  } finally {
    closeSync(fd);
  }
  return hash.digest('hex');
}
