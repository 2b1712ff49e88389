import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import * as z from 'zod';
import { type AtLot, onLot } from '../context.ts';
import type { LastBackup } from '../contract/answers.ts';
import { requests } from '../contract/requests.ts';
import { daySchema } from '../contract/values.ts';

/** When the lot was last backed up, in a small file beside the database: it is no fact of the lot, and no bundle takes it along. */
const memoryFile = 'last-backup.json';

const memory = z.object({
  version: z.literal(1),
  day: daySchema,
  name: z.string(),
  bytes: z.number().int().min(0),
  whole: z.boolean(),
});

/** The last bundle that was saved; undefined where none was, or where the note of it can't be read. */
export function lastBackup({ lot }: Pick<AtLot, 'lot'>): LastBackup | undefined {
  try {
    const read = memory.safeParse(JSON.parse(readFileSync(join(lot.folder, memoryFile), 'utf8')));
    if (!read.success) return undefined;
    const { day, name, bytes, whole } = read.data;
    return { day, name, bytes, whole };
  } catch {
    // Told as "not yet", which errs to the safe side: one more backup is made.
    return undefined;
  }
}

/** Noted once the bundle has been handed out, not when it was written: one that was never saved is no backup. */
export const backedUp = onLot(requests['backed-up'], (said, at) => {
  const aside = at.lot.temporaryPath();
  writeFileSync(aside, `${JSON.stringify({ version: 1, day: at.day, ...said }, null, 1)}\n`, { flag: 'wx' });
  renameSync(aside, join(at.lot.folder, memoryFile));
  return { day: at.day };
});
