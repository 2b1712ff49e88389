import { randomBytes } from 'node:crypto';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { removeFile } from '../disk.ts';
import { processLives } from '../lease.ts';

/** What a restore has not finished stands beside the folder it makes, under the number of its process. */
const beside = /^\.restoring-(\d+)-[0-9a-f]+$/;

export function besideName(): string {
  return `.restoring-${process.pid}-${randomBytes(6).toString('hex')}`;
}

/** Removes what a restore left here whose process is gone. */
export function sweepBeside(parent: string): void {
  for (const name of readdirSync(parent)) {
    const pid = beside.exec(name)?.[1];
    if (pid !== undefined && !processLives(Number(pid))) removeFile(join(parent, name), { recursive: true });
  }
}
