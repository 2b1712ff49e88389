import { createWriteStream, rmSync } from 'node:fs';
import type { IncomingMessage } from 'node:http';
import { pipeline } from 'node:stream/promises';
import { LotfileError, type TakenFile } from '../../core/desk/door.ts';
import { type HandedOver, plainName, tooLarge } from '../host/handed-over.ts';
import type { WindowDesk } from '../host/window-desk.ts';

function nameOf({ headers }: IncomingMessage): string {
  const header = headers['x-file-name'];
  try {
    return plainName(decodeURIComponent(typeof header === 'string' ? header : ''));
  } catch {
    return plainName('');
  }
}

interface UploadDoors {
  readonly host: WindowDesk;
  readonly handedOver: HandedOver;
  readonly window: string;
}

/**
 * Takes one file off the wire, as it comes.
 * @throws LotfileError `file refused` where it is too large: no more of it is read, none of it stays.
 */
export async function takeUpload(
  request: IncomingMessage,
  { host, handedOver, window }: UploadDoors,
): Promise<TakenFile> {
  const name = nameOf(request);
  const { limit } = handedOver;
  if (Number(request.headers['content-length'] ?? 0) > limit) throw tooLarge(name, limit);
  const path = handedOver.newPath();
  let bytes = 0;
  async function* measured(parts: AsyncIterable<unknown>): AsyncGenerator<Buffer> {
    for await (const part of parts) {
      const chunk = Buffer.isBuffer(part) ? part : Buffer.from(String(part));
      bytes += chunk.length;
      if (bytes > limit) throw tooLarge(name, limit);
      yield chunk;
    }
  }
  try {
    const parts = request.iterator({ destroyOnReturn: false });
    await pipeline(parts, measured, createWriteStream(path, { flags: 'wx', mode: 0o600 }));
    return host.takeOver({ path, name, bytes, window });
  } catch (cause) {
    rmSync(path, { force: true });
    if (cause instanceof LotfileError) throw cause;
    throw new LotfileError('disk', `"${name}" could not be taken.`, {
      about: name,
      next: 'See that the disk has room, then choose the file again.',
      cause,
    });
  }
}
