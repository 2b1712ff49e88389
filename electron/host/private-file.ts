import { randomUUID } from 'node:crypto';
import { closeSync, fsyncSync, mkdirSync, openSync, readFileSync, renameSync, rmSync, writeSync } from 'node:fs';
import { dirname } from 'node:path';
import type * as z from 'zod';

/**
 * Reads a small file of our own. One that is missing or no longer makes sense counts as none: nothing in it is worth
 * keeping a window shut for.
 */
export function readPrivate<Out>(path: string, schema: z.ZodType<Out>): Out | undefined {
  try {
    const raw: unknown = JSON.parse(readFileSync(path, 'utf8'));
    return schema.safeParse(raw).data;
  } catch {
    return undefined;
  }
}

/** Writes it whole or not at all, for this person's eyes only. */
export function writePrivate(path: string, value: object): void {
  mkdirSync(dirname(path), { recursive: true, mode: 0o700 });
  const part = `${path}.${randomUUID()}.part`;
  try {
    const file = openSync(part, 'wx', 0o600);
    try {
      writeSync(file, `${JSON.stringify(value, null, 2)}\n`);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    renameSync(part, path);
  } catch (error) {
    rmSync(part, { force: true });
    throw error;
  }
}
