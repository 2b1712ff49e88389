import { randomUUID } from 'node:crypto';
import { createWriteStream, mkdirSync, rmSync } from 'node:fs';
import type { IncomingMessage } from 'node:http';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { LotfileError, type TakenFile } from '../../core/desk/door.ts';
import type { WindowDesk } from '../host/window-desk.ts';
import { TooLarge } from './bodies.ts';

export const uploadLimit = 2 * 1024 ** 3;

function inWords(bytes: number): string {
  const [unit, size] = bytes >= 1024 ** 3 ? ['GB', 1024 ** 3] : bytes >= 1024 ** 2 ? ['MB', 1024 ** 2] : ['bytes', 1];
  return `${Math.round((bytes / size) * 10) / 10} ${unit}`;
}

/** The name is only ever shown: it never becomes a path. */
function nameOf(request: IncomingMessage): string {
  const header = request.headers['x-file-name'];
  try {
    const name = decodeURIComponent(typeof header === 'string' ? header : '');
    // The last part, were it a path; no letters that steer a screen.
    const last = name.split(/[\\/]/).at(-1) ?? '';
    const plain = last
      .replace(/\p{Cc}/gu, ' ')
      .trim()
      .slice(0, 255);
    if (plain !== '') return plain;
  } catch {
    // Told below, like a missing name.
  }
  throw new LotfileError('wrong use', 'A file came without a name.', { next: 'Choose the file again.' });
}

/** Where files a browser hands over lie until they are kept; private, and emptied when the host begins and ends. */
export class Uploads {
  readonly #folder: string;
  readonly #limit: number;

  constructor(folder: string, limit = uploadLimit) {
    this.#folder = folder;
    this.#limit = limit;
    this.clear();
    mkdirSync(folder, { recursive: true, mode: 0o700 });
  }

  clear(): void {
    rmSync(this.#folder, { recursive: true, force: true });
  }

  /**
   * Takes one file off the wire.
   * @throws LotfileError `file refused` where it is too large: no more of it is read, none of it stays.
   */
  async take(request: IncomingMessage, host: WindowDesk): Promise<TakenFile> {
    const name = nameOf(request);
    const tooLarge = (): TooLarge =>
      new TooLarge('file refused', `"${name}" is larger than ${inWords(this.#limit)}.`, {
        about: name,
        next: 'Split it into parts, or scan it at a lower resolution.',
      });
    if (Number(request.headers['content-length'] ?? 0) > this.#limit) throw tooLarge();
    const path = join(this.#folder, randomUUID());
    let bytes = 0;
    const limit = this.#limit;
    try {
      await pipeline(
        request.iterator({ destroyOnReturn: false }),
        async function* measured(parts: AsyncIterable<unknown>) {
          for await (const part of parts) {
            const chunk = Buffer.isBuffer(part) ? part : Buffer.from(String(part));
            bytes += chunk.length;
            if (bytes > limit) throw tooLarge();
            yield chunk;
          }
        },
        createWriteStream(path, { flags: 'wx', mode: 0o600 }),
      );
      return host.take(path, name, bytes);
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
}
