import { createHash, randomBytes } from 'node:crypto';
import { existsSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { LotfileError } from '../vocabulary/errors.ts';
import { newFolder, renameFile, syncFolder } from './disk.ts';

/** The folders of a lot. `table` holds what came in and is not kept yet, `working` what is not finished. */
export const lotFolders = ['originals', 'renditions', 'packets', 'table', 'working'] as const;

export function originalFile(folder: string, file: { sha: string; ext: string }): string {
  return join(folder, 'originals', file.sha.slice(0, 2), `${file.sha}.${file.ext}`);
}

export function renditionFile(folder: string, sha: string): string {
  return join(folder, 'renditions', sha.slice(0, 2), `${sha}.pdf`);
}

/** A new path in working/, noted as in use. */
export function newTemporaryPath(lot: { readonly folder: string; readonly issued: Set<string> }): string {
  const path = join(lot.folder, 'working', `${randomBytes(9).toString('hex')}.part`);
  lot.issued.add(path);
  return path;
}

/** The ending a file came with, made harmless; "bin" where it has none that could be kept. */
export function safeEnding(name: string): string {
  const ending = /\.([A-Za-z0-9]{1,8})$/.exec(name)?.[1];
  return ending === undefined ? 'bin' : ending.toLowerCase();
}

/** Makes a folder whose being there survives a power cut. */
export function makeFolder(path: string): void {
  if (existsSync(path)) return;
  newFolder(path);
  syncFolder(dirname(path));
}

/** Puts a synced file under its final name and syncs the folder that now names it. */
export function renameInto(from: string, into: { folder: string; name: string }): void {
  renameFile(from, join(into.folder, into.name));
  syncFolder(into.folder);
}

/** SHA-256 and size of a file, read in pieces. */
export async function hashFile(path: string, signal?: AbortSignal): Promise<{ sha256: string; bytes: number }> {
  const hash = createHash('sha256');
  // One buffer for the whole file: a stream would leave a file's worth of garbage behind.
  const file = await open(path);
  try {
    const piece = Buffer.allocUnsafe(Math.min(1 << 20, Math.max(1, (await file.stat()).size)));
    let bytes = 0;
    for (let got = -1; got !== 0; bytes += got) {
      if (signal?.aborted === true) throw new LotfileError('stopped', 'Stopped as you asked.');
      got = (await file.read(piece, 0, piece.length, bytes)).bytesRead;
      hash.update(piece.subarray(0, got));
    }
    return { sha256: hash.digest('hex'), bytes };
  } finally {
    await file.close();
  }
}
