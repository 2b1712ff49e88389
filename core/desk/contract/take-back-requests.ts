import * as z from 'zod';
import { request } from './define.ts';
import { daySchema, named, practiceId, rowId, shortWords, words } from './values.ts';

const done = request<{ readonly act: string }>();

/** Ending, renaming, answering and taking back: what was said can be unsaid, beyond undoing the last act. */
export const takeBackRequests = {
  'answer-comment': done({
    help: 'Answer one of the numbered comments an office sent back.',
    in: z.object({ comment: rowId, text: words, day: daySchema.optional(), evidence: named.optional() }),
  }),
  'applies-again': done({
    help: 'Take back that a paper does not apply here.',
    in: z.object({ paper: named }),
  }),
  'end-firm': done({
    help: 'Note the last day a firm is on the job.',
    in: z.object({ firm: named, day: daySchema }),
  }),
  'correct-firm': done({
    help: 'Correct the name, trade or days of a firm that were noted wrong.',
    in: z.object({
      firm: named,
      name: shortWords.optional(),
      trade: shortWords.optional(),
      from: daySchema.optional(),
      to: daySchema.optional(),
      /** Days nobody knows after all. */
      clear: z.array(z.enum(['from', 'to'])).default([]),
    }),
  }),
  'remove-firm': done({
    help: 'Remove a firm that was noted by mistake and has no papers yet.',
    in: z.object({ firm: named }),
  }),
  'end-identity': done({
    help: 'Note until when a name, address or parcel number was used.',
    in: z.object({ sort: z.enum(['owner', 'place', 'parcel']), text: shortWords, day: daySchema }),
  }),
  'remove-event': done({
    help: 'Take back an event that did not happen as noted.',
    in: z.object({ event: practiceId, day: daySchema }),
  }),
  'rename-lot': done({
    help: 'Give the lot another title.',
    in: z.object({ title: shortWords }),
  }),
  unsay: done({
    help: 'Take back what the clerk said otherwise; what was said later stays.',
    in: z.object({ word: rowId }),
  }),
} as const;
