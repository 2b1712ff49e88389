import * as z from 'zod';
import { request } from './define.ts';
import { daySchema, named, practiceId, shortWords, words } from './values.ts';
import type { WrittenAnswer } from './written-answers.ts';

export const paperSorts = [
  'hold-sheet',
  'inspection-day',
  'phone-list',
  'inspection-log',
  'firms',
  'extension-request',
  'transmittal',
  'response',
  'photo-sheet',
  'cost-breakdown',
  'draw-request',
] as const;
export type PaperSort = (typeof paperSorts)[number];

/** Papers the program writes by themselves, outside any packet. */
export const writtenRequests = {
  'write-paper': request<WrittenAnswer>()({
    help: 'Write a paper as a PDF: hold-sheet, inspection-day, phone-list, inspection-log, firms, extension-request, transmittal, response, photo-sheet, cost-breakdown, draw-request.',
    in: z.object({
      sort: z.enum(paperSorts),
      /** hold-sheet: which hold. */
      hold: practiceId.optional(),
      /** inspection-day, phone-list, response: which errand, and of which firm or area. */
      errand: practiceId.optional(),
      subject: named.optional(),
      /** extension-request: which permit. */
      paper: named.optional(),
      /** draw-request: which draw, by its number. */
      draw: named.optional(),
      /** transmittal: which packet. */
      packet: named.optional(),
      recipient: shortWords.optional(),
      /** A sentence of your own: the reason for more time, a word to go with the papers. */
      words: words.optional(),
      /** photo-sheet. */
      perSheet: z.enum(['2', '4']).default('4'),
      trade: shortWords.optional(),
      place: shortWords.optional(),
      from: daySchema.optional(),
      to: daySchema.optional(),
    }),
    long: true,
  }),
} as const;
