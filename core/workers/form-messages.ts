import { z } from 'zod';
import type { FillFormDone, FillFormJob } from '../forms/file/fill-blank.ts';
import type { ReadFormDone, ReadFormJob } from '../forms/file/read-blank.ts';
import { type BlankForm, type FieldWrite, fieldSorts, wantedSorts } from '../forms/form-model.ts';

const text = z.string();
const number = z.number();

const fieldPlace = z.object({
  page: number,
  rect: z.object({ x: number, y: number, width: number, height: number }),
  width: number,
  height: number,
  border: number,
  on: text.optional(),
});

const blankField = z.object({
  name: text,
  sort: z.enum(fieldSorts),
  hint: text.optional(),
  required: z.boolean(),
  readOnly: z.boolean(),
  multiline: z.boolean(),
  comb: z.boolean(),
  ownWords: z.boolean(),
  longest: number.optional(),
  size: number,
  align: z.enum(['left', 'centre', 'right']),
  options: z.array(z.object({ value: text, label: text })).readonly(),
  value: text.optional(),
  wants: z.enum(wantedSorts).optional(),
  worked: z.boolean(),
  places: z.array(fieldPlace).readonly(),
});

/** Boxes of a blank, as a worker reads them and as they are remembered. */
export const blankForm = z.object({
  fields: z.array(blankField).readonly(),
  pages: number,
  xfa: z.enum(['none', 'beside', 'only']),
  sealed: z.boolean(),
}) satisfies z.ZodType<BlankForm>;

export const readFormDone = z.object({ blank: blankForm }) satisfies z.ZodType<ReadFormDone>;

export const readFormJob = z.object({
  job: z.literal('read form'),
  input: text,
  name: text,
}) satisfies z.ZodType<ReadFormJob>;

const fieldWrite = z.discriminatedUnion('write', [
  z.object({ field: text, write: z.literal('text'), text }),
  z.object({ field: text, write: z.literal('choice'), value: text, text }),
  z.object({ field: text, write: z.literal('state'), state: text }),
]) satisfies z.ZodType<FieldWrite>;

export const fillFormDone = z.object({
  filled: number,
  sha256: text.regex(/^[0-9a-f]{64}$/),
  bytes: number,
  recipe: text,
  tool: text,
}) satisfies z.ZodType<FillFormDone>;

export const fillFormJob = z.object({
  job: z.literal('fill form'),
  input: text,
  name: text,
  output: text,
  writes: z.array(fieldWrite).readonly(),
  flatten: z.boolean(),
}) satisfies z.ZodType<FillFormJob>;
