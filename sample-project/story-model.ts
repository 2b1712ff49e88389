import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import * as z from 'zod';
import { type Day, isDay } from '../core/vocabulary/days.ts';
import { linkWords, standingWords } from '../core/vocabulary/lot.ts';
import { visitOutcomes } from '../core/vocabulary/practice.ts';

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
  /** Made by filling this errand's form from its blank, instead of files. */
  fill: text.optional(),
});

/** One going to an office, or one coming of theirs. */
const visit = z.strictObject({
  errand: text,
  subject: text.optional(),
  /** The day of going there; the papers stay with them from then on, until `settled`. */
  day,
  settled: day.optional(),
  outcome: z.enum(visitOutcomes).optional(),
  note: text.optional(),
  /** They sent it back on the same day, with these numbered comments. */
  sent_back: z.array(text).default([]),
  /** Numbered comments on what they settled all the same. */
  comments: z.array(text).default([]),
  /** Until when they want the comments answered. */
  due: day.optional(),
});

/** Papers given to somebody: an errand's packet, or a bundle of one's own; the same title again is the same packet. */
const handover = z.strictObject({
  day,
  title: text,
  errand: text.optional(),
  /** By their kind, as they count that day. */
  papers: z.array(text).optional(),
  to: text,
  how: text,
  receipt: text.optional(),
});

const record = z.strictObject({
  day,
  sort: z.enum(['photo', 'receipt', 'serial number', 'note']),
  title: text,
  place: text.optional(),
  wall: text.optional(),
  trade: text.optional(),
  amount: text.optional(),
  text: text.optional(),
  file: text.optional(),
});

/** Money and firms: the request that notes it, and what is said with it, as the contract has it. */
const act = z.looseObject({
  day,
  /** The day it speaks of, where that is another than the day it was noted. */
  day_of: day.optional(),
  do: z.enum(['cost-line', 'change-order', 'invoice', 'payment', 'waiver', 'notice', 'draw', 'change-firm', 'engage']),
});

const happenings = {
  /** What an office said otherwise: one rule of the practice, a new value, whose word. */
  words: z
    .array(
      z.strictObject({
        target: text,
        value: z.union([z.string(), z.number(), z.boolean()]),
        who: text,
        day,
        note: text.optional(),
      }),
    )
    .default([]),
  events: z.array(z.strictObject({ event: text, day, note: text.optional() })).default([]),
  visits: z.array(visit).default([]),
  handovers: z.array(handover).default([]),
  records: z.array(record).default([]),
  acts: z.array(act).default([]),
  papers: z.array(paper).default([]),
};

const known = {
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
};

const story = z.strictObject({
  title: text,
  target: day,
  /** The days on which the story is told, by name. */
  days: z.record(text, day),
  ...known,
  ...happenings,
});

/** The same lot gone another way. */
const branch = z.strictObject({
  title: text,
  target: day,
  days: z.record(text, day),
  /** The last day on which it was as the story tells; none where it is told from its beginning. */
  leaves: day.optional(),
  /** Papers, records and acts of the story's that are told here all the same, after that day: by key, file or title. */
  as_told: z.array(text).default([]),
  known: z.strictObject(known).optional(),
  ...happenings,
});

export type Story = z.infer<typeof story>;
export type StoryPaper = z.infer<typeof paper>;
type Branch = z.infer<typeof branch>;

function read(name: string): unknown {
  return parse(readFileSync(new URL(name, import.meta.url), 'utf8'));
}

/** Reads the invented lot's story; a mistake in the file is told with its place. */
export function readStory(): Story {
  return story.parse(read('story.yaml'));
}

/** What had happened by the day it leaves the story; what lay with an office then lies there still. */
function upTo(main: Story, leaves: Day, asTold: ReadonlySet<string>): Pick<Story, keyof typeof happenings> {
  const before = <T extends { readonly day: Day }>(all: readonly T[]): T[] => all.filter((one) => one.day <= leaves);
  return {
    words: before(main.words),
    events: before(main.events),
    visits: before(main.visits).map((one) =>
      one.settled === undefined || one.settled <= leaves ? one : { ...one, settled: undefined, outcome: undefined },
    ),
    handovers: before(main.handovers),
    records: main.records.filter(({ day: on, file = '' }) => on <= leaves || asTold.has(file)),
    acts: before(main.acts),
    papers: main.papers
      .filter(({ from_day, key }) => from_day <= leaves || asTold.has(key))
      .map((one) => ({ ...one, standings: before(one.standings) })),
  };
}

function composed(main: Story, other: Branch): Story {
  const { leaves, as_told, known: own, title, target, days, ...added } = other;
  const before = leaves === undefined ? undefined : upTo(main, leaves, new Set(as_told));
  return {
    title,
    target,
    days,
    answers: own?.answers ?? main.answers,
    identities: own?.identities ?? main.identities,
    same_as: own?.same_as ?? main.same_as,
    subjects: own?.subjects ?? main.subjects,
    words: [...(before?.words ?? []), ...added.words],
    events: [...(before?.events ?? []), ...added.events],
    visits: [...(before?.visits ?? []), ...added.visits],
    handovers: [...(before?.handovers ?? []), ...added.handovers],
    records: [...(before?.records ?? []), ...added.records],
    acts: [...(before?.acts ?? []), ...added.acts],
    papers: [...(before?.papers ?? []), ...added.papers],
  };
}

/** A branch's own happenings woven into the story: a story of its own, and the day on which it went another way. */
export function readBranch(name: string): { readonly story: Story; readonly leaves: Day | undefined } {
  const other = branch.parse(read(name));
  return { story: composed(readStory(), other), leaves: other.leaves };
}

/** Where a file of the story lies. */
export function paperFile(name: string): URL {
  return new URL(`papers/${encodeURIComponent(name)}`, import.meta.url);
}
