import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import * as z from 'zod';
import type { SentCalendar } from '../../calendar/calendar-model.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { AtLot } from '../context.ts';
import { daySchema } from '../contract/values.ts';

/** What the last calendar file said, in a small file beside the database: it is no fact of the lot, only of our telling. */
const memoryFile = 'calendar.json';

const sentDate = z.object({
  key: z.string(),
  day: daySchema,
  title: z.string(),
  words: z.array(z.string()),
  place: z.string().optional(),
  alarms: z.array(z.number()),
  sequence: z.number().int().min(0),
  modified: daySchema,
  cancelled: z.boolean(),
});

const memory = z.object({ version: z.literal(1), day: daySchema, dates: z.array(sentDate) });

function textOf(path: string): string | undefined {
  try {
    return readFileSync(path, 'utf8');
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return undefined;
    throw error;
  }
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/** The same from the text of another computer's memory; undefined where it can't be read. */
export function sentCalendarIn(text: string): SentCalendar | undefined {
  const read = memory.safeParse(parsed(text));
  return read.success ? { day: read.data.day, dates: read.data.dates } : undefined;
}

/**
 * The last file's dates; undefined where none was made.
 * @throws LotfileError `lot damaged` where the memory can't be read: a calendar would get every date twice.
 */
export function lastCalendar({ lot }: Pick<AtLot, 'lot'>): SentCalendar | undefined {
  const text = textOf(join(lot.folder, memoryFile));
  if (text === undefined) return undefined;
  const read = sentCalendarIn(text);
  if (read !== undefined) return read;
  throw new LotfileError('lot damaged', 'What the last calendar file said can’t be read.', {
    about: memoryFile,
    next: 'Move calendar.json out of the lot folder and export again; your calendar may then ask which to keep.',
  });
}

/** Written aside and renamed, so that there is never half of it. */
export function rememberCalendar({ day, dates }: SentCalendar, { lot }: Pick<AtLot, 'lot'>): void {
  const aside = lot.temporaryPath();
  writeFileSync(aside, `${JSON.stringify({ version: 1, day, dates }, null, 1)}\n`, { flag: 'wx' });
  renameSync(aside, join(lot.folder, memoryFile));
}
