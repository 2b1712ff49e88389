import { createHash } from 'node:crypto';
import { open } from 'node:fs/promises';

/** SHA-256 of a file in lower-case hex, read in pieces, so that other requests are answered in between. */
export async function fileHash(path: string, signal?: AbortSignal): Promise<string> {
  const hash = createHash('sha256');
  // One buffer for the whole file: a stream would leave a file's worth of garbage behind.
  const piece = Buffer.allocUnsafe(1 << 20);
  const file = await open(path);
  try {
    for (let at = 0, got = -1; got !== 0; at += got) {
      signal?.throwIfAborted();
      got = (await file.read(piece, 0, piece.length, at)).bytesRead;
      hash.update(piece.subarray(0, got));
    }
    return hash.digest('hex');
  } finally {
    await file.close();
  }
}
