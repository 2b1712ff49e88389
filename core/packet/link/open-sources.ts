import { closeSync, openSync } from 'node:fs';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { LinkSource } from '../link-order.ts';
import { Aside } from './aside.ts';
import { type SourcePages, walkPages } from './page-walk.ts';
import { damaged } from './syntax/damage.ts';
import { PdfFile } from './syntax/pdf-file.ts';

export interface OpenSource {
  readonly id: string;
  /** 1-based place in the order. */
  readonly place: number;
  readonly file: PdfFile;
  readonly walked: SourcePages;
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

/** Reads the table and the pages of a kept paper that is open. @throws LotfileError `paper damaged` */
export function readSource({ id, title }: LinkSource, at: { readonly index: number; readonly fd: number }): OpenSource {
  const file = new PdfFile(title, at.fd);
  return { id, place: at.index + 1, file, walked: walkPages(file) };
}

/**
 * The kept papers of a packet, open. That each is, byte for byte, what was kept is checked on a second core
 * meanwhile: nothing made from them may be given a name before `proved` has returned.
 */
export class Sources {
  readonly #listed: readonly LinkSource[];
  readonly #fds: number[] = [];
  readonly #hashes: Promise<string>[] = [];
  readonly #aside = new Aside();

  constructor(listed: readonly LinkSource[]) {
    this.#listed = listed;
  }

  /** @throws LotfileError `paper damaged`, `disk` */
  open(): readonly OpenSource[] {
    for (const { path, title } of this.#listed) this.#fds.push(openKept(path, title));
    this.#hashes.push(...this.#aside.wholes(this.#fds));
    // Heard in `proved`; a failure before that is not a failure nobody hears.
    for (const hash of this.#hashes) hash.catch(() => undefined);
    return this.#listed.map((source, index) => readSource(source, { index, fd: this.#fds[index] ?? -1 }));
  }

  /** @throws LotfileError `paper damaged` naming the first paper whose bytes changed. */
  async proved(): Promise<void> {
    for (const [index, { title, sha256 }] of this.#listed.entries()) {
      if ((await this.#hashes[index]) !== sha256.toLowerCase()) {
        throw damaged(title, 'the file changed since it was kept');
      }
    }
  }

  /**
   * Why linking failed: a paper that can't be read is most often one that changed, and that is the better sentence.
   */
  async reason(error: unknown): Promise<unknown> {
    if (!(error instanceof LotfileError) || error.code !== 'paper damaged') return error;
    if (this.#hashes.length < this.#listed.length) return error;
    try {
      await this.proved();
      return error;
    } catch (better) {
      return better;
    }
  }

  async close(): Promise<void> {
    await this.#aside.end();
    for (const fd of this.#fds) closeSync(fd);
  }
}
