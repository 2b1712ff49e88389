import { createHash } from 'node:crypto';
import { mkdirSync, statSync, writeFileSync } from 'node:fs';
import { copyFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileHash } from '../../../packet/file-hash.ts';
import { FileNames } from '../../../packet/plan/names.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';

/** The folder being written: hands out plain names, and knows the hash of all that lies in it. */
export class RecordFolder {
  readonly root: string;
  readonly #names = new Map<string, FileNames>();
  readonly #hashes = new Map<string, string>();
  #bytes = 0;

  constructor(root: string) {
    this.root = root;
  }

  /** A free plain name in a folder of the record: "2-land-office/Deed_2025-113.pdf". */
  pathFor(folder: string, stem: string, extension: string): string {
    const names = this.#names.get(folder) ?? new FileNames({});
    this.#names.set(folder, names);
    const name = names.plain(stem, extension);
    return folder === '' ? name : `${folder}/${name}`;
  }

  /** Where a path of the record lies on the disk; its folder is made. */
  place(path: string): string {
    const disk = join(this.root, ...path.split('/'));
    mkdirSync(dirname(disk), { recursive: true });
    return disk;
  }

  /** Copies a kept file, and compares the copy with what was kept. */
  async copy(from: string, path: string, kept: { readonly sha256: string; readonly name: string }): Promise<void> {
    const disk = this.place(path);
    await copyFile(from, disk);
    await this.written(path);
    if (this.#hashes.get(path) === kept.sha256) return;
    throw new LotfileError('paper damaged', `"${kept.name}" is no longer what was kept.`, {
      about: kept.name,
      next: 'Run verify to see all that is damaged; nothing was written.',
    });
  }

  /** Counts a file that was written at its place. */
  async written(path: string): Promise<void> {
    const disk = this.place(path);
    this.#hashes.set(path, await fileHash(disk));
    this.#bytes += statSync(disk).size;
  }

  write(path: string, content: string | Uint8Array): void {
    writeFileSync(this.place(path), content, { flag: 'wx' });
    const bytes = Buffer.from(content);
    this.#hashes.set(path, createHash('sha256').update(bytes).digest('hex'));
    this.#bytes += bytes.length;
  }

  get files(): number {
    return this.#hashes.size;
  }

  get bytes(): number {
    return this.#bytes;
  }

  /** "hash  path" a line, as sha256sum -c reads it. */
  hashList(): string {
    const rows = [...this.#hashes].toSorted(([a], [b]) => (a < b ? -1 : 1));
    return `${rows.map(([path, hash]) => `${hash}  ${path}`).join('\n')}\n`;
  }
}
