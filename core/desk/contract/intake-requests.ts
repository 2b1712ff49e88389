import * as z from 'zod';
import type { KeepAnswer } from './answers.ts';
import { request } from './define.ts';
import type { BlackOutAnswer, ReadAnswer, RecordFilesAnswer, SlimAnswer, UnpackAnswer } from './table-answers.ts';
import { daySchema, itemName, named, pagesSaid, practiceId, rowId, shortWords, ticketSchema, words } from './values.ts';

const size = z.number().positive();

const recordSaid = {
  title: shortWords.optional(),
  day: daySchema.optional(),
  place: shortWords.optional(),
  wall: shortWords.optional(),
  trade: shortWords.optional(),
  amount: z.string().optional(),
};

/** What comes in: reading it, splitting it, watching for it. */
export const intakeRequests = {
  read: request<ReadAnswer>()({
    help: 'Read what stands on files or on a kept paper: the kind, dates, number and facts it seems to bear.',
    in: z.object({
      /** Files that make one paper, in order. */
      files: z.array(ticketSchema).max(200).default([]),
      /** Which pages of each file, in the same order: "1-3,5"; all where it is empty or left out. */
      pages: z.array(pagesSaid).max(200).default([]),
      edition: named.optional(),
      kind: practiceId.optional(),
      /** Opens a locked file; used once, written nowhere. */
      password: z.string().max(200).optional(),
    }),
    long: true,
  }),
  'keep-parts': request<KeepAnswer>()({
    help: 'Keep a scan of several papers as all that it looks like, each by its pages, as read suggests them.',
    in: z.object({ file: ticketSchema }),
    long: true,
  }),
  'black-out': request<BlackOutAnswer>()({
    help: 'Make a copy of a paper with places blacked out: what lay beneath is gone from it. The paper itself stays.',
    in: z.object({
      edition: named,
      /** Page 0-based in the paper; the rest in points on the page as seen, unturned, from its lower left. */
      places: z
        .array(z.object({ page: z.int().min(0), x: z.number(), y: z.number(), width: size, height: size }))
        .min(1)
        .max(500),
    }),
    long: true,
  }),
  slim: request<SlimAnswer>()({
    help: 'Make a smaller copy of a paper for an office’s or mailbox’s limit, such as 4 MB.',
    in: z.object({ edition: named, most: shortWords }),
    long: true,
  }),
  unpack: request<UnpackAnswer>()({
    help: 'Take an e-mail or a ZIP on the table apart: what is inside comes on the table, the mail itself becomes a note.',
    in: z.object({ item: itemName }),
    long: true,
  }),
  'record-files': request<RecordFilesAnswer>()({
    help: 'Note many photos or receipts at once; each takes its day from the camera where that tells one.',
    in: z.object({
      files: z.array(ticketSchema).min(1).max(1000),
      sort: z.enum(['photo', 'receipt']).default('photo'),
      ...recordSaid,
    }),
    long: true,
  }),
  'correct-records': request<{ readonly act: string }>()({
    help: 'Correct photos, receipts or notes: title, day, place, wall, trade, amount, words; several at once.',
    in: z.object({
      records: z.array(rowId).min(1).max(1000),
      ...recordSaid,
      text: words.optional(),
      clear: z.array(z.enum(['place', 'wall', 'trade', 'amount', 'text'])).default([]),
    }),
  }),
  'remove-records': request<{ readonly act: string }>()({
    help: 'Take photos, receipts or notes off the list; their files stay until you undo or purge.',
    in: z.object({ records: z.array(rowId).min(1).max(1000) }),
  }),
} as const;
