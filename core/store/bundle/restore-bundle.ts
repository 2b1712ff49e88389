import { existsSync, mkdirSync, readdirSync, rmdirSync, statfsSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { LotfileError } from '../../vocabulary/errors.ts';
import { newFolder, removeFile, renameFile, syncFolder } from '../disk.ts';
import type { LongWork } from '../long-work.ts';
import { knownMigrations } from '../migrations.ts';
import { lotFolders } from '../places.ts';
import { refuseSyncedFolder } from '../synced-folder.ts';
import { fileTrouble } from '../trouble.ts';
import { besideName, sweepBeside } from './beside.ts';
import { checkDatabase } from './check-database.ts';
import { databaseName, type Manifest, newerBundle } from './manifest.ts';
import { type OpenBundle, openBundle } from './read-bundle.ts';

export interface Restored {
  readonly title: string;
  readonly files: number;
  readonly bytes: number;
}

/** A program that doesn't know a step of the tables refuses before it unpacks anything. */
export function refuseNewer({ migrations }: Manifest, about: string): void {
  const known = new Set(knownMigrations().map(({ name }) => name));
  if (migrations.some((name) => !known.has(name))) throw newerBundle(about);
}

function refuseUsed(folder: string): void {
  if (!existsSync(folder) || readdirSync(folder).length === 0) return;
  throw new LotfileError('wrong use', `"${basename(folder)}" is not empty.`, {
    about: folder,
    next: 'Name a new folder for the lot.',
  });
}

/** Room for all of it, and a little more. */
export function refuseFullDisk(parent: string, bytes: number): void {
  const { bavail, bsize } = statfsSync(parent);
  if (bavail * bsize > bytes * 1.02 + 50_000_000) return;
  const needed = Math.ceil(bytes / 1_000_000);
  throw new LotfileError('disk', `There is not room enough for ${needed} MB here.`, {
    about: parent,
    next: 'Free some space or choose another disk; nothing was written.',
  });
}

async function unpack(bundle: OpenBundle, folder: string, work: LongWork): Promise<number> {
  const { files } = bundle.manifest;
  for (const name of lotFolders) mkdirSync(join(folder, name));
  let bytes = 0;
  for (const [n, file] of files.entries()) {
    work.onProgress?.({ what: 'unpacking the bundle', done: n, of: files.length });
    const to = join(folder, ...file.path.split('/'));
    mkdirSync(dirname(to), { recursive: true });
    await bundle.extract(file, to, work.signal);
    bytes += file.bytes;
  }
  return bytes;
}

/**
 * Makes a lot folder from a bundle: beside it first, every byte compared, then renamed into place.
 * @param folder a new or empty folder
 * @throws LotfileError `file refused`, `lot newer`, `wrong use`, `disk`, `stopped`; nothing is left behind then.
 */
export async function restoreBundle(
  path: string,
  folder: string,
  work: LongWork & { readonly name: string },
): Promise<Restored> {
  const target = resolve(folder);
  refuseUsed(target);
  refuseSyncedFolder(target);
  const bundle = await openBundle(path, work.name);
  let aside: string | undefined;
  try {
    refuseNewer(bundle.manifest, work.name);
    const parent = dirname(target);
    mkdirSync(parent, { recursive: true });
    refuseFullDisk(
      parent,
      bundle.manifest.files.reduce((sum, { bytes }) => sum + bytes, 0),
    );
    sweepBeside(parent);
    aside = join(parent, besideName());
    newFolder(aside);
    const bytes = await unpack(bundle, aside, work);
    checkDatabase(join(aside, databaseName), work.name);
    if (existsSync(target)) rmdirSync(target);
    renameFile(aside, target);
    syncFolder(parent);
    return { title: bundle.manifest.title, files: bundle.manifest.files.length - 1, bytes };
  } catch (error) {
    throw fileTrouble(error, target, 'Making the lot folder');
  } finally {
    bundle.close();
    if (aside !== undefined) removeFile(aside, { recursive: true });
  }
}
