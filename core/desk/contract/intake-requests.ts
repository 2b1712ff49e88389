import * as z from 'zod';
import { request } from './define.ts';
import type { ReadAnswer } from './table-answers.ts';
import { named, pagesSaid, practiceId, ticketSchema } from './values.ts';

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
    }),
    long: true,
  }),
} as const;
