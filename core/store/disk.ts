import { closeSync, fsyncSync, linkSync, mkdirSync, openSync, type RmOptions, renameSync, rmSync } from 'node:fs';

/**
 * The few deeds by which the store changes a disk. Each asks `aboutTo` first: nothing listens there but a test, which
 * lets the disk fail or the process die at any one of them.
 */
export type DiskDeed = 'write' | 'sync' | 'rename' | 'remove' | 'folder' | 'commit';
export type DiskWatch = (deed: DiskDeed, path: string) => void;

let watching: DiskWatch | undefined;

/** @param watch may throw what a failing disk would, or end the process; undefined ends the watching. */
export function watchDisk(watch: DiskWatch | undefined): void {
  watching = watch;
}

export function aboutTo(deed: DiskDeed, path: string): void {
  watching?.(deed, path);
}

export function renameFile(from: string, to: string): void {
  aboutTo('rename', to);
  renameSync(from, to);
}

/** A second name for a file; fails where the name is taken. Not every disk can do it. */
export function linkFile(from: string, to: string): void {
  aboutTo('rename', to);
  linkSync(from, to);
}

/** Harmless where there is nothing. */
export function removeFile(path: string, how: RmOptions = {}): void {
  aboutTo('remove', path);
  rmSync(path, { force: true, ...how });
}

export function newFolder(path: string): void {
  aboutTo('folder', path);
  mkdirSync(path);
}

function sync(path: string, flags: 'r' | 'r+'): void {
  aboutTo('sync', path);
  const handle = openSync(path, flags);
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

/** Makes a rename in this folder survive a power cut. Windows has no such call; its renames are journalled. */
export function syncFolder(folder: string): void {
  if (process.platform !== 'win32') sync(folder, 'r');
}

/** Makes the bytes of a finished file survive a power cut. */
export function syncFile(path: string): void {
  sync(path, 'r+');
}
