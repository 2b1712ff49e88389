import * as z from 'zod';
import { type Day, isDay } from '../../vocabulary/days.ts';
import { factSorts } from '../../vocabulary/facts.ts';
import { linkWords, standingWords, visitStates } from '../../vocabulary/lot.ts';
import { visitOutcomes } from '../../vocabulary/practice.ts';

/** Value schemas that several requests share. Old deeds are older than the country; nothing is good for a thousand years. */
export const daySchema = z
  .custom<Day>(
    (value) => typeof value === 'string' && isDay(value) && value >= '1600-01-01' && value <= '2999-12-31',
    'a date between 1600 and 2999, written year-month-day, for example 2026-03-02',
  )
  .meta({ takes: 'day' });

export const words = z.string().trim().min(1).max(2000);
export const shortWords = z.string().trim().min(1).max(300);

/** An id of the practice: lower case words joined by "-" (or "_" in facts and questions). */
export const practiceId = z
  .string()
  .max(100)
  .regex(/^[a-z0-9]+([-_][a-z0-9]+)*$/, 'an id such as septic-permit');

/** A row id or a lot handle; opaque to every host. */
export const rowId = z.string().min(1).max(100);

/** What a person calls a paper, edition or firm: an id, a kind, a number, a title. */
export const named = shortWords;

/** The name of a file on the table. */
export const itemName = shortWords.regex(/^\P{Cc}+$/u, 'the name of a file on the table');

/** Several short words: marks, titles. */
export const wordList = z.array(shortWords).max(200);

/** Pages of a file as a person writes them, counted from 1: "1-3, 5". Empty: all of them. */
export const pagesSaid = z
  .string()
  .trim()
  .max(2000)
  .regex(/^(\d{1,5}(\s*-\s*\d{1,5})?(\s*,\s*\d{1,5}(\s*-\s*\d{1,5})?)*)?$/, 'pages such as 1-3,5');

/** Degrees a page is turned clockwise. */
export const turnsSaid = ['0', '90', '180', '270'] as const;

/** Stands for a file or folder that a host offered; a path never crosses the contract. */
export const ticketSchema = z
  .string()
  .regex(/^t-[0-9a-f-]{36}$/, 'a ticket for a file')
  .meta({ takes: 'file' });

const amount = z.number().refine(Number.isFinite, 'a number');

export const factValueSchema = z.discriminatedUnion('sort', [
  z.object({ sort: z.enum(['text', 'name', 'address', 'parcel number', 'revision', 'choice']), value: words }),
  z.object({ sort: z.enum(['count', 'number', 'length', 'area', 'volume', 'flow', 'percent']), value: amount }),
  z.object({ sort: z.literal('money'), value: z.number().int() }),
  z.object({ sort: z.literal('day'), value: daySchema }),
  z.object({ sort: z.literal('yes or no'), value: z.boolean() }),
  z.object({ sort: z.literal('elevation'), value: z.object({ feet: amount, datum: shortWords }) }),
]);

/** Answers and facts as a person writes them: plain words, read by the sort the practice gives. */
export const saidFacts = z.record(practiceId, z.string().trim().max(2000));

export const factSortSchema = z.enum(factSorts);
export const standingWordSchema = z.enum(standingWords);
export const linkWordSchema = z.enum(linkWords);
export const visitStateSchema = z.enum(visitStates);
export const visitOutcomeSchema = z.enum(visitOutcomes);
