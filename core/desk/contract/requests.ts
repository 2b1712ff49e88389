import * as z from 'zod';
import type {
  ActRow,
  AssembleAnswer,
  ErrandAnswer,
  EventAnswer,
  FoundRow,
  HandoverRow,
  KeepAnswer,
  LotCard,
  LotOpened,
  PacketRow,
  PaperRow,
  PlanAnswer,
  PracticeAnswer,
  PurgeAnswer,
  RecordRow,
  UndoAnswer,
  VerifyAnswer,
  WayAnswer,
} from './answers.ts';
import { costRequests } from './cost-requests.ts';
import { request } from './define.ts';
import { formRequests } from './form-requests.ts';
import { goingOutRequests } from './going-out-requests.ts';
import { intakeRequests } from './intake-requests.ts';
import { practiceRequests } from './practice-requests.ts';
import { screenRequests } from './screen-requests.ts';
import { takeBackRequests } from './take-back-requests.ts';
import {
  daySchema,
  linkWordSchema,
  named,
  pagesSaid,
  practiceId,
  rowId,
  saidFacts,
  shortWords,
  standingWordSchema,
  ticketSchema,
  turnsSaid,
  visitOutcomeSchema,
  visitStateSchema,
  wordList,
  words,
} from './values.ts';
import { writtenRequests } from './written-requests.ts';

const recordSorts = ['photo', 'receipt', 'serial number', 'note'] as const;
const layer = z.object({ name: shortWords, text: z.string().max(2_000_000) });
const done = request<{ readonly act: string }>();

const linksSaid = z
  .array(z.object({ word: linkWordSchema, to: named }))
  .max(200)
  .default([]);

/** One paper to keep: its files in order make one edition. */
export const paperToKeep = z.object({
  files: z.array(ticketSchema).max(200),
  /** Which pages of each file, in the order of the files: "1-3,5"; all where empty. A file may be named twice. */
  pages: z.array(pagesSaid).max(200).default([]),
  /** How far the pages of each file are turned clockwise. */
  turn: z.array(z.enum(turnsSaid)).max(200).default([]),
  /** Pages nobody picked are of no use: their file goes off the table all the same. */
  leaveRest: z.boolean().default(false),
  kind: practiceId.default('other'),
  title: shortWords.optional(),
  subject: named.optional(),
  issued: daySchema.optional(),
  effective: daySchema.optional(),
  goodThrough: daySchema.optional(),
  number: shortWords.optional(),
  issuer: shortWords.optional(),
  revision: shortWords.optional(),
  facts: saidFacts.default({}),
  marks: wordList.default([]),
  links: linksSaid,
  physicalOnly: z.boolean().default(false),
  /** Opens a locked file; used once and written nowhere. A refusal that asks for it says so (`asks`). */
  password: z.string().max(200).optional(),
});

const packetWanted = {
  errand: practiceId.optional(),
  subject: named.optional(),
  /** A bundle of the owner's own choosing instead of an errand's. */
  papers: z.array(named).max(500).optional(),
  title: shortWords.optional(),
  recipient: shortWords.optional(),
  override: words.optional(),
};

/** Every request, declared once; desktop, loopback and terminal are loops over this map. */
export const requests = {
  'new-lot': request<LotOpened>()({
    help: 'Make a lot folder with common practice and, where you have them, local amendments.',
    in: z.object({
      folder: ticketSchema,
      title: shortWords,
      target: daySchema.optional(),
      layers: z.array(layer).max(50).default([]),
      on: daySchema.optional(),
    }),
    lot: false,
  }),
  'open-lot': request<LotOpened>()({
    help: 'Open a lot folder.',
    in: z.object({
      folder: ticketSchema,
      /** That computer is gone: obeyed only after five minutes of silence. */
      takeOver: z.boolean().default(false),
    }),
    lot: false,
  }),
  'close-lot': request<{ readonly closed: true }>()({ help: 'Close the lot.', in: z.object({}) }),
  'read-lot': request<LotCard>()({ help: 'Show the record card: answers, names, firms, events.', in: z.object({}) }),
  answer: done({
    help: 'Answer a question about the lot; "don\'t know yet" is an answer.',
    in: z.object({ question: practiceId, answer: words }),
  }),
  target: done({ help: 'Set the day you hope to move in.', in: z.object({ day: daySchema }) }),
  event: request<EventAnswer>()({
    help: 'Note something that happened: construction begun, loan recorded, concrete poured ...',
    in: z.object({ event: practiceId, day: daySchema, note: words.optional() }),
  }),
  identity: done({
    help: 'Note a name, address or parcel number exactly as printed, and from when to when it was used.',
    in: z.object({
      sort: z.enum(['owner', 'place', 'parcel']),
      text: shortWords,
      from: daySchema.optional(),
      to: daySchema.optional(),
    }),
  }),
  same: done({
    help: 'Confirm that two spellings mean the same owner, place or parcel.',
    in: z.object({ sort: z.enum(['owner', 'place', 'parcel']), a: shortWords, b: shortWords }),
  }),
  engage: request<{ readonly act: string; readonly subject: string }>()({
    help: 'Note a firm on the job: its trade and the days it is on site.',
    in: z.object({
      firm: shortWords,
      trade: shortWords,
      from: daySchema.optional(),
      to: daySchema.optional(),
    }),
  }),
  keep: request<KeepAnswer>()({
    help: 'Keep papers: PDF, JPEG or PNG files, with what stands on them.',
    in: z.object({ papers: z.array(paperToKeep).min(1).max(500) }),
    long: true,
  }),
  papers: request<{ readonly papers: readonly PaperRow[] }>()({
    help: 'List the papers and their state; with wanted, also those the way needs that are not in the lot yet.',
    in: z.object({ kind: practiceId.optional(), wanted: z.boolean().default(false) }),
  }),
  correct: request<{ readonly act: string; readonly paper: string; readonly notes: readonly string[] }>()({
    help: 'Correct what was noted of a paper: its kind, marks, facts, dates; its title where it has no kind.',
    in: z.object({
      edition: named,
      /** The kind it really is, by its id or title; its facts stay where that kind knows them. */
      kind: named.optional(),
      /** Whose it is, where the kind is kept per engagement, area or draw. */
      subject: named.optional(),
      title: shortWords.optional(),
      issued: daySchema.optional(),
      effective: daySchema.optional(),
      goodThrough: daySchema.optional(),
      number: shortWords.optional(),
      issuer: shortWords.optional(),
      revision: shortWords.optional(),
      facts: saidFacts.default({}),
      marks: wordList.default([]),
      unmark: wordList.default([]),
      links: linksSaid,
      clear: z.array(z.enum(['issued', 'effective', 'goodThrough', 'number', 'issuer', 'revision'])).default([]),
    }),
  }),
  'not-applicable': done({
    help: 'Say that a paper does not apply here, and why.',
    in: z.object({ paper: named, why: words }),
  }),
  standing: done({
    help: 'Record what an office did with a paper: received, approved, refused, revoked, closed.',
    in: z.object({
      edition: named,
      office: practiceId,
      word: standingWordSchema,
      day: daySchema.optional(),
      note: words.optional(),
    }),
  }),
  way: request<WayAnswer>()({ help: 'Show the whole way: what to do next, when, and what lapses.', in: z.object({}) }),
  errand: request<ErrandAnswer>()({
    help: 'Show what an office will say to an errand on a day, and why.',
    in: z.object({ errand: practiceId, subject: named.optional() }),
  }),
  visit: request<{ readonly act: string; readonly visit: string }>()({
    help: 'Record a visit: planned, left with them, sent back (with their comments; outcome "turned away" where they took nothing), settled.',
    in: z.object({
      errand: practiceId,
      subject: named.optional(),
      /** The planned visit this came of, or whose day was moved; else a new one is noted. */
      visit: rowId.optional(),
      day: daySchema.optional(),
      state: visitStateSchema,
      outcome: visitOutcomeSchema.optional(),
      note: words.optional(),
      comments: z.array(words).max(500).default([]),
      /** Until when they want the comments answered. */
      due: daySchema.optional(),
    }),
  }),
  plan: request<PlanAnswer>()({ help: 'Lay out a packet without assembling it.', in: z.object(packetWanted) }),
  assemble: request<AssembleAnswer>()({
    help: 'Assemble the packet of an errand, or papers of your own choosing.',
    in: z.object(packetWanted),
    long: true,
  }),
  packets: request<{ readonly packets: readonly PacketRow[] }>()({
    help: 'List the packets that were assembled.',
    in: z.object({}),
  }),
  'hand-over': request<{ readonly act: string; readonly handover: string; readonly notes: readonly string[] }>()({
    help: 'Record that a packet was handed over: to whom, how, with what receipt.',
    in: z.object({
      packet: rowId,
      to: shortWords,
      how: shortWords,
      day: daySchema.optional(),
      receipt: words.optional(),
      surrendered: wordList.default([]),
    }),
  }),
  withdraw: done({
    help: 'Withdraw a handover that did not happen as noted, with the reason.',
    in: z.object({ handover: rowId, reason: words }),
  }),
  handovers: request<{ readonly handovers: readonly HandoverRow[] }>()({
    help: 'Show who holds what, since when.',
    in: z.object({}),
  }),
  find: request<{ readonly found: readonly FoundRow[] }>()({
    help: 'Find a paper, number, office or word.',
    in: z.object({ text: shortWords, limit: z.number().int().min(1).max(500).default(20) }),
  }),
  history: request<{ readonly acts: readonly ActRow[] }>()({
    help: 'Show what was done, newest first.',
    in: z.object({ limit: z.number().int().min(1).max(1000).default(20) }),
  }),
  undo: request<UndoAnswer>()({
    help: 'Undo the last act, or the one named.',
    in: z.object({ act: rowId.optional() }),
  }),
  verify: request<VerifyAnswer>()({
    help: 'Check every file and row of the lot.',
    in: z.object({}),
    long: true,
  }),
  'clerk-said': done({
    help: 'The clerk said otherwise: amend one rule, with name and day.',
    in: z.object({
      rule: shortWords,
      value: z.union([z.string().max(2000), z.number(), z.boolean(), z.array(z.string().max(2000)).max(200)]),
      who: shortWords,
      day: daySchema.optional(),
      note: words.optional(),
    }),
  }),
  practice: request<PracticeAnswer>()({ help: 'Show the practice in force here.', in: z.object({}) }),
  record: done({
    help: 'Note a light thing: a dated photo, receipt, serial number or note.',
    in: z.object({
      sort: z.enum(recordSorts),
      title: shortWords,
      day: daySchema.optional(),
      place: shortWords.optional(),
      wall: shortWords.optional(),
      trade: shortWords.optional(),
      amount: z.string().optional(),
      text: words.optional(),
      file: ticketSchema.optional(),
    }),
  }),
  records: request<{ readonly records: readonly RecordRow[] }>()({
    help: 'List the light things.',
    in: z.object({ trade: shortWords.optional(), sort: z.enum(recordSorts).optional() }),
  }),
  purge: request<PurgeAnswer>()({
    help: 'Remove a private paper’s file for good; a marker stays.',
    in: z.object({ edition: named, reason: words, sure: z.boolean().default(false) }),
  }),
  ...screenRequests,
  ...practiceRequests,
  ...takeBackRequests,
  ...writtenRequests,
  ...goingOutRequests,
  ...costRequests,
  ...intakeRequests,
  ...formRequests,
} as const;

export type RequestName = keyof typeof requests;
type Spec<N extends RequestName> = (typeof requests)[N];

/** What a handler gets: parsed input. */
export type RequestInput<N extends RequestName> = z.output<Spec<N>['in']>;
/** What a caller writes: defaults may be left out. */
export type RequestArgument<N extends RequestName> = z.input<Spec<N>['in']>;
export type RequestAnswer<N extends RequestName> = NonNullable<Spec<N>['out']>;

export function isRequestName(text: string): text is RequestName {
  return Object.hasOwn(requests, text);
}
