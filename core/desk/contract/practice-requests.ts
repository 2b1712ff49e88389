import * as z from 'zod';
import { needUses } from '../../vocabulary/practice.ts';
import { request } from './define.ts';
import type { AnotherPaperAnswer, EffectAnswer, LaidOverAnswer } from './practice-answers.ts';
import type { MadeFile } from './screen-answers.ts';
import { daySchema, named, practiceId, rowId, shortWords, ticketSchema, words } from './values.ts';

const ruleValue = z.union([z.string(), z.number(), z.boolean(), z.array(z.string())]);

/** Seeing a change of the practice before it is noted, and handing amendments on. */
export const practiceRequests = {
  'practice-effect': request<EffectAnswer>()({
    help: 'Show what a change of the rules would do to this lot, before it is noted: one rule, a word taken back, or a file of amendments.',
    in: z.object({
      rule: shortWords.optional(),
      value: ruleValue.optional(),
      /** A word that would be taken back. */
      word: rowId.optional(),
      /** A file of amendments that would be laid over. */
      file: ticketSchema.optional(),
    }),
  }),
  'another-paper': request<AnotherPaperAnswer>()({
    help: 'They want another paper too: note it as one this errand needs, with name and day. Name a kind of paper, or give the title of one that has no kind yet.',
    in: z.object({
      errand: practiceId,
      /** A kind that practice knows, by its id or title. */
      paper: named.optional(),
      /** Of a kind nobody wrote down so far. */
      title: shortWords.optional(),
      /** The office that gives it out, where it is a new kind and that is known. */
      from: practiceId.optional(),
      use: z.enum(needUses).optional(),
      copies: z.number().int().min(1).max(99).optional(),
      who: shortWords,
      day: daySchema.optional(),
      note: words.optional(),
    }),
  }),
  'lay-over': request<LaidOverAnswer>()({
    help: 'Lay a file of amendments over the rules of this lot, a neighbour’s say; undo takes it off again.',
    in: z.object({ file: ticketSchema }),
  }),
  'export-practice': request<MadeFile & { readonly layers: number }>()({
    help: 'Write the local amendments, what offices told you included, as one file for a neighbour.',
    in: z.object({}),
  }),
} as const;
