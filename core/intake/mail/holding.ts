import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { sniff, sniffLength } from '../sniff.ts';
import type { LeftInside, MailNote, UnpackedFile } from './unpack-model.ts';

/** An e-mail in a ZIP in an e-mail is as deep as anyone packs by hand. */
export const deepest = 3;
const mostFiles = 1000;
/** What all files together may take on the disk, and each of them. */
const mostBytes = 2 ** 30;

/** What is known of a file inside before it is written. */
export interface Inside {
  readonly name: string;
  readonly within?: string | undefined;
  readonly inline?: true | undefined;
}

/** Collects what comes out of one file, within limits. */
export class Holding {
  readonly files: UnpackedFile[] = [];
  readonly mails: MailNote[] = [];
  readonly left: LeftInside[] = [];
  readonly #folder: string;
  #bytes = 0;
  #taken = 0;

  constructor(folder: string) {
    this.#folder = folder;
  }

  /** Bytes that may still be written. */
  get room(): number {
    return mostBytes - this.#bytes;
  }

  /** A path for the next file; undefined (and told) where there are too many. */
  nextPath(inside: Inside): string | undefined {
    if (this.#taken >= mostFiles) {
      this.leave(inside.name, `is one of more than ${mostFiles} files: unpack it yourself and drop in what you need.`);
      return undefined;
    }
    this.#taken += 1;
    return join(this.#folder, String(this.#taken).padStart(4, '0'));
  }

  took(inside: Inside, at: { readonly path: string; readonly bytes: number; readonly head: Uint8Array }): UnpackedFile {
    this.#bytes += at.bytes;
    const file = { ...inside, path: at.path, bytes: at.bytes, sort: sniff(at.head) };
    this.files.push(file);
    return file;
  }

  /** It was opened in its turn: what it held stands in its place. */
  replace(file: UnpackedFile): void {
    this.files.splice(this.files.indexOf(file), 1);
  }

  write(inside: Inside, bytes: Uint8Array): UnpackedFile | undefined {
    if (bytes.length > this.room) {
      this.leave(inside.name, 'does not fit: together the files inside take more than 1 GB.');
      return undefined;
    }
    const path = this.nextPath(inside);
    if (path === undefined) return undefined;
    writeFileSync(path, bytes);
    return this.took(inside, { path, bytes: bytes.length, head: bytes.subarray(0, sniffLength) });
  }

  leave(name: string, why: string): void {
    if (this.left.length < mostFiles) this.left.push({ name, why });
  }
}
