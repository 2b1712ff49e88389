import type { IncomingMessage } from 'node:http';
import { LotfileError } from '../../core/desk/door.ts';
import { TooLarge } from '../host/handed-over.ts';

/** Enough for a practice of fifty layers; files come by their own door. */
export const jsonLimit = 8 * 1024 * 1024;

/**
 * Reads a small JSON body.
 * @throws LotfileError `wrong use` where it is too large or no JSON.
 */
export async function readJson(request: IncomingMessage, limit = jsonLimit): Promise<unknown> {
  const tooLarge = (): TooLarge =>
    new TooLarge('wrong use', 'This is too much for one request.', { next: 'Do it in smaller parts.' });
  if (Number(request.headers['content-length'] ?? 0) > limit) throw tooLarge();
  const parts: Buffer[] = [];
  let size = 0;
  for await (const part of request) {
    const bytes = Buffer.from(part);
    size += bytes.length;
    if (size > limit) throw tooLarge();
    parts.push(bytes);
  }
  try {
    return JSON.parse(Buffer.concat(parts).toString('utf8'));
  } catch (cause) {
    throw new LotfileError('wrong use', 'The request was not understood.', { next: 'Load the window again.', cause });
  }
}
