import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';

/** SHA-256 of a file in lower-case hex, read in pieces, so that other requests are answered in between. */
export async function fileHash(path: string, signal?: AbortSignal): Promise<string> {
  const hash = createHash('sha256');
  for await (const piece of createReadStream(path, { highWaterMark: 1 << 20 })) {
    signal?.throwIfAborted();
    hash.update(piece);
  }
  return hash.digest('hex');
}
