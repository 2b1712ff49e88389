import { z } from 'zod';
import type { ReadDone, ReadJob } from '../intake/ocr/read-model.ts';
import type { PageText } from '../intake/reading/page-text.ts';
import { type KeepDone, type KeepJob, keepRungs } from '../intake/rendition-model.ts';
import { errorCodes } from '../vocabulary/errors.ts';

/** What goes to a worker: one job at a time. */
export interface ToWorker {
  readonly id: number;
  readonly job: KeepJob | ReadJob;
}

const number = z.number();
const rect = z.object({ x: number, y: number, width: number, height: number });

const pageFacts = z.object({
  page: number,
  width: number,
  height: number,
  clearStrips: z.array(rect).readonly(),
  openSaves: number,
  extraRestores: number,
  bytes: number,
  text: z.string(),
});

const keepDone = z.object({
  rendition: z.object({
    source: z.string(),
    recipe: z.string(),
    tool: z.string(),
    rung: z.enum(keepRungs),
    pages: z.array(pageFacts).readonly(),
    sealed: z.boolean(),
    notes: z.array(z.string()).readonly(),
  }),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  bytes: number,
}) satisfies z.ZodType<KeepDone>;

const word = z.object({
  text: z.string(),
  box: rect,
  certainty: number,
  again: z.string().optional(),
});

const pageText = z.object({
  page: number,
  width: number,
  height: number,
  source: z.enum(['text layer', 'picture']),
  turn: z.union([z.literal(0), z.literal(90), z.literal(180), z.literal(270)]),
  lean: number,
  lines: z.array(z.object({ words: z.array(word).readonly() })).readonly(),
}) satisfies z.ZodType<PageText>;

const readDone = z.object({ pages: z.array(pageText).readonly() }) satisfies z.ZodType<ReadDone>;

const failure = z.object({
  code: z.enum(errorCodes),
  message: z.string(),
  about: z.string().optional(),
  next: z.string().optional(),
  asks: z.literal('password').optional(),
});

/** What comes back. A worker has touched hostile bytes: its words are checked like anyone's. */
export const fromWorker = z.discriminatedUnion('say', [
  z.object({ say: z.literal('ready') }),
  z.object({ say: z.literal('page'), id: number, done: number, of: number }),
  z.object({ say: z.literal('done'), id: number, result: keepDone, memory: number }),
  z.object({ say: z.literal('read'), id: number, result: readDone, memory: number }),
  z.object({ say: z.literal('failed'), id: number, error: failure, memory: number }),
]);

export type FromWorker = z.infer<typeof fromWorker>;

/** What a job looks like on the worker's side of the door. */
export const toWorker = z.object({
  id: number,
  job: z.discriminatedUnion('job', [
    z.object({
      job: z.literal('keep'),
      input: z.string(),
      name: z.string(),
      output: z.string(),
      password: z.string().optional(),
    }),
    z.object({ job: z.literal('read'), input: z.string(), name: z.string() }),
  ]),
}) satisfies z.ZodType<ToWorker>;
