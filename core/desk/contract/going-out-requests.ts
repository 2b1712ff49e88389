import * as z from 'zod';
import type { Day } from '../../vocabulary/days.ts';
import { request } from './define.ts';
import { shortWords, ticketSchema } from './values.ts';
import type {
  BundleAnswer,
  CalendarAnswer,
  HouseRecordAnswer,
  MendAnswer,
  MergeAnswer,
  RestoreAnswer,
} from './written-answers.ts';

const side = z.enum(['mine', 'theirs']);

/** Dates that go out, and the lot on its way to another computer or another owner. */
export const goingOutRequests = {
  calendar: request<CalendarAnswer>()({
    help: 'Write your dates as a calendar file (.ics) and say what changed since the last one.',
    in: z.object({}),
  }),
  bundle: request<BundleAnswer>()({
    help: 'Write the whole lot into one file: a backup, or to take to another computer.',
    in: z.object({}),
    long: true,
  }),
  'backed-up': request<{ readonly day: Day }>()({
    help: 'Note that a bundle was saved as a backup; read-lot shows the last one.',
    in: z.object({ name: shortWords, bytes: z.number().int().min(0), whole: z.boolean().default(true) }),
  }),
  restore: request<RestoreAnswer>()({
    help: 'Make a lot folder from a bundle, every byte compared.',
    in: z.object({ bundle: ticketSchema, folder: ticketSchema }),
    lot: false,
    long: true,
  }),
  mend: request<MendAnswer>()({
    help: 'Build the database of a damaged lot anew from what can be read and from its copies; what is gone is told.',
    in: z.object({ folder: ticketSchema }),
    lot: false,
    long: true,
  }),
  merge: request<MergeAnswer>()({
    help: 'Take over from a bundle of the same lot what is new there; rows changed on both sides wait for your choice.',
    in: z.object({
      bundle: ticketSchema,
      /** Only say what would come over. */
      look: z.boolean().default(false),
      choices: z.record(shortWords, side).default({}),
      /** For every row that was changed on both sides and isn't named in choices. */
      all: side.optional(),
    }),
    long: true,
  }),
  'house-record': request<HouseRecordAnswer>()({
    help: 'Write the house record: plain folders, one PDF of all, and an index any browser opens.',
    in: z.object({
      folder: ticketSchema,
      /** Also private papers (bank details, social security numbers) and those no rule knows. */
      privates: z.boolean().default(false),
    }),
    long: true,
  }),
} as const;
