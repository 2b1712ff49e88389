import { randomUUID } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { LotfileError } from '../../core/desk/door.ts';

/** Bytes one file may have. */
export const largestFile = 2 * 1024 ** 3;

/** A body that is not read to its end: the connection can't be used again. */
export class TooLarge extends LotfileError {}

function inWords(bytes: number): string {
  const [unit, size] = bytes >= 1024 ** 3 ? ['GB', 1024 ** 3] : bytes >= 1024 ** 2 ? ['MB', 1024 ** 2] : ['bytes', 1];
  return `${Math.round((bytes / size) * 10) / 10} ${unit}`;
}

export function tooLarge(name: string, limit: number): TooLarge {
  return new TooLarge('file refused', `"${name}" is larger than ${inWords(limit)}.`, {
    about: name,
    next: 'Split it into parts, or scan it at a lower resolution.',
  });
}

/**
 * A file's name as the person knows it; only ever shown, never made into a path: its last part were it one, and no
 * letters that steer a screen.
 * @throws LotfileError where nothing is left of it.
 */
export function plainName(name: string): string {
  const last = name.split(/[\\/]/).at(-1) ?? '';
  const plain = last
    .replace(/\p{Cc}/gu, ' ')
    .trim()
    .slice(0, 255);
  if (plain !== '') return plain;
  throw new LotfileError('wrong use', 'A file came without a name.', { next: 'Choose the file again.' });
}

/** Whether a process of that number lives; one that belongs to somebody else does. */
function lives(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}

/** Folders of hosts that ended without a word: each bears the number of its process. */
function sweepStale(base: string): void {
  for (const name of existsSync(base) ? readdirSync(base) : []) {
    const [, pid] = /^(\d+)-/.exec(name) ?? [];
    if (pid === undefined || !lives(Number(pid))) rmSync(join(base, name), { recursive: true, force: true });
  }
}

/**
 * Where files lie that were handed over as bytes, until they are kept; private, emptied at the begin and the end, and
 * with it what hosts left behind that are no more.
 */
export class HandedOver {
  readonly limit: number;
  readonly folder: string;

  /** @param name tells the hosts of one process apart. */
  constructor(config: string, name: string, limit = largestFile) {
    const base = join(config, 'handed-over');
    sweepStale(base);
    this.limit = limit;
    this.folder = join(base, `${process.pid}-${name}`);
    this.clear();
    mkdirSync(this.folder, { recursive: true, mode: 0o700 });
  }

  clear(): void {
    rmSync(this.folder, { recursive: true, force: true });
  }

  newPath(): string {
    return join(this.folder, randomUUID());
  }

  /** A folder of its own, for a file that has to carry its name. */
  newFolder(): string {
    const path = this.newPath();
    mkdirSync(path, { mode: 0o700 });
    return path;
  }
}
