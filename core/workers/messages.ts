import { z } from 'zod';
import type { ReadDone } from '../intake/ocr/read-model.ts';
import { type KeepDone, type KeepRecipe, keepRungs } from '../intake/rendition-model.ts';
import { asksFor, errorCodes } from '../vocabulary/errors.ts';
import { fillFormDone, fillFormJob, readFormDone, readFormJob } from './form-messages.ts';
import { sealReading, slimDone, slimJob, unpackDone, unpackJob } from './holding-messages.ts';
import type { Job } from './job.ts';
import {
  glimpseDone,
  glimpseJob,
  pageText,
  suggestDone,
  suggestJob,
  writeOutDone,
  writeOutJob,
} from './reading-messages.ts';

/** What goes to a worker: one job at a time. */
export interface ToWorker {
  readonly id: number;
  readonly job: Job;
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
    seals: z.array(sealReading).readonly().optional(),
    asked: z.string().optional(),
    notes: z.array(z.string()).readonly(),
  }),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  bytes: number,
}) satisfies z.ZodType<KeepDone>;

const readDone = z.object({ pages: z.array(pageText).readonly() }) satisfies z.ZodType<ReadDone>;

const failure = z.object({
  code: z.enum(errorCodes),
  message: z.string(),
  about: z.string().optional(),
  next: z.string().optional(),
  asks: z.enum(asksFor).optional(),
});

/** What comes back. A worker has touched hostile bytes: its words are checked like anyone's. */
export const fromWorker = z.discriminatedUnion('say', [
  z.object({ say: z.literal('ready') }),
  z.object({ say: z.literal('page'), id: number, done: number, of: number }),
  z.object({ say: z.literal('done'), id: number, result: keepDone, memory: number }),
  z.object({ say: z.literal('read'), id: number, result: readDone, memory: number }),
  z.object({ say: z.literal('written'), id: number, result: writeOutDone, memory: number }),
  z.object({ say: z.literal('suggested'), id: number, result: suggestDone, memory: number }),
  z.object({ say: z.literal('glimpsed'), id: number, result: glimpseDone, memory: number }),
  z.object({ say: z.literal('unpacked'), id: number, result: unpackDone, memory: number }),
  z.object({ say: z.literal('slimmed'), id: number, result: slimDone, memory: number }),
  z.object({ say: z.literal('form read'), id: number, result: readFormDone, memory: number }),
  z.object({ say: z.literal('form filled'), id: number, result: fillFormDone, memory: number }),
  z.object({ say: z.literal('failed'), id: number, error: failure, memory: number }),
]);

export type FromWorker = z.infer<typeof fromWorker>;

const point = z.object({ x: number, y: number });

const keepRecipe = z.object({
  clean: z
    .object({
      crop: z.union([z.literal('find'), z.tuple([point, point, point, point]).readonly()]).optional(),
      straighten: z.boolean().optional(),
      contrast: z.boolean().optional(),
    })
    .optional(),
  blackOut: z
    .array(z.object({ page: number, place: rect }))
    .readonly()
    .optional(),
}) satisfies z.ZodType<KeepRecipe>;

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
      recipe: keepRecipe.optional(),
    }),
    z.object({ job: z.literal('read'), input: z.string(), name: z.string() }),
    writeOutJob,
    suggestJob,
    glimpseJob,
    unpackJob,
    slimJob,
    readFormJob,
    fillFormJob,
  ]),
}) satisfies z.ZodType<ToWorker>;
