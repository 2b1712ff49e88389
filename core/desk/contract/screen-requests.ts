import * as z from 'zod';
import { request } from './define.ts';
import type { InspectionsAnswer } from './inspection-answers.ts';
import type { LapsesAnswer } from './lapse-answers.ts';
import type { AmendableAnswer, WordsAnswer } from './practice-answers.ts';
import type {
  MailDraftAnswer,
  OfficesAnswer,
  PacketFilesAnswer,
  PagesAnswer,
  SheetAnswer,
  TodayAnswer,
} from './screen-answers.ts';
import type { LaidDownAnswer, PutAsideAnswer, TableAnswer } from './table-answers.ts';
import { itemName, named, practiceId, rowId, shortWords, ticketSchema, words } from './values.ts';

/** What the screens ask to show themselves: each answers all of one screen, light enough to be asked at every change. */
export const screenRequests = {
  today: request<TodayAnswer>()({
    help: 'Show the slip for the day: what you can do, what to carry, what waits, what lapses soon.',
    in: z.object({}),
  }),
  inspections: request<InspectionsAnswer>()({
    help: 'Show every inspection of the way: what is next, what it holds, what lies ready, how to book, what is recorded.',
    in: z.object({}),
  }),
  lapses: request<LapsesAnswer>()({
    help: 'Show what has lapsed and is still needed, what lapses within so many days (60), and until when more time can be asked for.',
    in: z.object({ within: z.number().int().min(1).max(3660).default(60) }),
  }),
  pages: request<PagesAnswer>()({
    help: 'Show one edition of a paper: its pages, what stands on it, how long it is good, who holds copies.',
    in: z.object({ edition: named }),
  }),
  'with-offices': request<OfficesAnswer>()({
    help: 'Show per office what lies with them, what they sent back, what they hold, and what you wait for.',
    in: z.object({}),
  }),
  table: request<TableAnswer>()({
    help: 'List what lies on the table: files that came in and are not kept yet.',
    in: z.object({}),
  }),
  'lay-down': request<LaidDownAnswer>()({
    help: 'Lay files on the table: copies go into the lot’s table folder, to be kept later.',
    in: z.object({ files: z.array(ticketSchema).min(1).max(200) }),
    long: true,
  }),
  'put-aside': request<PutAsideAnswer>()({
    help: 'Put a file on the table aside; it goes into table/put-aside, nothing is lost.',
    in: z.object({ item: itemName }),
  }),
  'take-up': request<PutAsideAnswer>()({
    help: 'Take a file that was put aside onto the table again.',
    in: z.object({ item: itemName }),
  }),
  amendable: request<AmendableAnswer>()({
    help: 'Show the rules of an errand, a kind of paper or an office that "the clerk said otherwise" can change.',
    in: z.object({ errand: practiceId.optional(), paper: practiceId.optional(), office: practiceId.optional() }),
  }),
  'practice-words': request<WordsAnswer>()({
    help: 'List what offices said otherwise so far, and the files the practice was made from.',
    in: z.object({}),
  }),
  'errand-sheet': request<SheetAnswer>()({
    help: 'Write only your own private errand sheet as a PDF.',
    in: z.object({
      errand: practiceId.optional(),
      subject: named.optional(),
      papers: z.array(named).max(500).optional(),
      title: shortWords.optional(),
      recipient: shortWords.optional(),
    }),
  }),
  'mail-draft': request<MailDraftAnswer>()({
    help: 'Write an e-mail draft (.eml) with a packet attached, for your own mail program to send.',
    in: z.object({
      packet: named,
      to: z.email('an e-mail address, such as desk@county.example').optional(),
      words: words.optional(),
    }),
    long: true,
  }),
  'packet-files': request<PacketFilesAnswer>()({
    help: 'List the files of a packet assembled earlier.',
    in: z.object({ packet: rowId }),
  }),
} as const;
