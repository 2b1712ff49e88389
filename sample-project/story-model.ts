import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import * as z from 'zod';
import { type Day, isDay } from '../core/vocabulary/days.ts';
import { linkWords, standingWords, visitOutcomes } from '../core/vocabulary/lot.ts';

const day = z.custom<Day>((value) => typeof value === 'string' && isDay(value), 'a day written year-month-day');
const text = z.string().min(1);
/** Facts and answers stand in the words a person would write; a practice gives their sorts. */
const said = z.record(text, z.union([z.string(), z.number(), z.boolean()]).transform(String));

const paper = z.strictObject({
  /** Name used by links in this file. */
  key: text,
  kind: text,
  /** In reading order, names in papers/; none where the paper is held only in the hand. */
  files: z.array(text).default([]),
  title: text.optional(),
  subject: text.optional(),
  /** The day it came in. */
  from_day: day,
  issued: day.optional(),
  effective: day.optional(),
  good_through: day.optional(),
  number: text.optional(),
  issuer: text.optional(),
  revision: text.optional(),
  facts: said.default({}),
  marks: z.array(text).default([]),
  links: z.array(z.strictObject({ word: z.enum(linkWords), to: text })).default([]),
  standings: z
    .array(z.strictObject({ office: text, word: z.enum(standingWords), day, note: text.optional() }))
    .default([]),
  physical_only: z.boolean().default(false),
});

const story = z.strictObject({
  title: text,
  target: day,
  /** The days on which the story is told, by name. */
  days: z.record(text, day),
  answers: said,
  identities: z.array(
    z.strictObject({ sort: z.enum(['owner', 'place', 'parcel']), text, from: day.optional(), to: day.optional() }),
  ),
  same_as: z.array(z.strictObject({ sort: z.enum(['owner', 'place', 'parcel']), a: text, b: text })).default([]),
  subjects: z.array(
    z.strictObject({
      key: text,
      sort: z.enum(['engagement', 'area', 'draw']),
      title: text,
      firm: text,
      trade: text,
      from: day,
      to: day,
    }),
  ),
  /** What an office said otherwise: one rule of the practice, a new value, whose word. */
  words: z.array(
    z.strictObject({
      target: text,
      value: z.union([z.string(), z.number(), z.boolean()]),
      who: text,
      day,
      note: text.optional(),
    }),
  ),
  events: z.array(z.strictObject({ event: text, day, note: text.optional() })),
  visits: z.array(
    z.strictObject({
      errand: text,
      subject: text.optional(),
      /** The day of going there; the papers stay with them from then on, until `settled`. */
      day,
      settled: day.optional(),
      outcome: z.enum(visitOutcomes).optional(),
      note: text.optional(),
    }),
  ),
  papers: z.array(paper),
});

export type Story = z.infer<typeof story>;
export type StoryPaper = z.infer<typeof paper>;

/** Reads the invented lot's story; a mistake in the file is told with its place. */
export function readStory(): Story {
  return story.parse(parse(readFileSync(new URL('story.yaml', import.meta.url), 'utf8')));
}

/** Where a file of the story lies. */
export function paperFile(name: string): URL {
  return new URL(`papers/${encodeURIComponent(name)}`, import.meta.url);
}
