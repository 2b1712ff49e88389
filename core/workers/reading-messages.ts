import { z } from 'zod';
import type { SuggestDone, SuggestJob, WriteOutDone, WriteOutJob } from '../intake/ocr/read-model.ts';
import type { GlimpseDone, GlimpseJob } from '../intake/pictures/glimpse-model.ts';
import type { PageText } from '../intake/reading/page-text.ts';
import { type Day, isDay } from '../vocabulary/days.ts';

/** What is said about reading, both ways. */

const number = z.number();
const rect = z.object({ x: number, y: number, width: number, height: number });
const day = z.custom<Day>((value) => typeof value === 'string' && isDay(value));

const word = z.object({
  text: z.string(),
  box: rect,
  certainty: number,
  again: z.string().optional(),
  code: z.object({ text: z.string(), certainty: number }).optional(),
});

const turn = z.union([z.literal(0), z.literal(90), z.literal(180), z.literal(270)]);
const source = z.enum(['text layer', 'picture']);

export const pageText = z.object({
  page: number,
  width: number,
  height: number,
  source,
  turn,
  lean: number,
  blank: z.boolean().optional(),
  lines: z.array(z.object({ words: z.array(word).readonly() })).readonly(),
}) satisfies z.ZodType<PageText>;

export const writeOutJob = z.object({
  job: z.literal('write out'),
  input: z.string(),
  name: z.string(),
  output: z.string(),
}) satisfies z.ZodType<WriteOutJob>;

export const writeOutDone = z.object({
  written: z.array(z.object({ page: number, source, blank: z.boolean(), turn, text: z.string() })).readonly(),
}) satisfies z.ZodType<WriteOutDone>;

export const suggestJob = z.object({
  job: z.literal('suggest'),
  name: z.string(),
  parts: z.array(z.object({ texts: z.string(), pages: z.array(number).readonly().optional() })).readonly(),
  practice: z.string(),
  today: day,
  kind: z.string().optional(),
}) satisfies z.ZodType<SuggestJob>;

const place = z.object({ page: number, box: rect, words: z.string() });
const sureness = z.enum(['sure', 'likely', 'guess']);

function suggestion<T extends z.ZodType>(value: T) {
  return z.object({
    value,
    sureness,
    place,
    because: place.optional(),
    doubts: z.array(z.string()).readonly(),
    otherwise: z.array(value).readonly(),
  });
}

const textSorts = ['text', 'name', 'address', 'parcel number', 'revision', 'choice'] as const;
const numberSorts = ['count', 'number', 'length', 'area', 'volume', 'flow', 'percent'] as const;

const factValue = z.discriminatedUnion('sort', [
  z.object({ sort: z.enum(textSorts), value: z.string() }),
  z.object({ sort: z.enum(numberSorts), value: number }),
  z.object({ sort: z.literal('money'), value: z.int() }),
  z.object({ sort: z.literal('day'), value: day }),
  z.object({ sort: z.literal('yes or no'), value: z.boolean() }),
  z.object({ sort: z.literal('elevation'), value: z.object({ feet: number, datum: z.string() }) }),
]);

const text = suggestion(z.string()).optional();
const date = suggestion(day).optional();

export const suggestDone = z.object({
  reading: z.object({
    kinds: z.array(z.object({ kind: z.string(), sureness, because: z.array(place).readonly() })).readonly(),
    kind: z.string().optional(),
    issued: date,
    effective: date,
    goodThrough: date,
    number: text,
    issuer: text,
    parcel: text,
    address: text,
    owner: text,
    facts: z.record(z.string(), suggestion(factValue)),
    notes: z.array(z.string()).readonly(),
    cuts: z
      .array(z.object({ from: number, to: number, kind: z.string().optional(), because: z.string().optional() }))
      .readonly()
      .optional(),
  }),
}) satisfies z.ZodType<SuggestDone>;

export const glimpseJob = z.object({
  job: z.literal('glimpse'),
  input: z.string(),
  name: z.string(),
  output: z.string(),
  room: z.object({ width: number, height: number }).optional(),
}) satisfies z.ZodType<GlimpseJob>;

export const glimpseDone = z.object({
  glimpse: z.object({ width: number, height: number }),
  taken: day.optional(),
}) satisfies z.ZodType<GlimpseDone>;
