import * as z from 'zod';
import { costSorts, waiverKinds } from '../../vocabulary/costs.ts';
import type { CostsAnswer, DrawCheckAnswer, TradesAnswer } from './cost-answers.ts';
import { request } from './define.ts';
import { daySchema, named, rowId, shortWords, words } from './values.ts';

/** An amount as one writes it: "62,000 usd", "$62,000", "62000.50"; a change order may be less than nothing. */
const amount = z.string().trim().min(1).max(40);
const percent = z.number().min(0).max(100);
const kept = request<{ readonly act: string; readonly row: string }>();

/** What can be taken away again, by the word it is noted with. */
export const costRows = ['cost-line', 'change-order', 'invoice', 'payment', 'waiver', 'notice', 'draw'] as const;

/** The money of the house and the firms on it. With `row`, what is there is changed: only what is named. */
export const costRequests = {
  costs: request<CostsAnswer>()({
    help: 'Show the costs: estimate, agreed, paid, still to pay; invoices, draws, the offices’ fees.',
    in: z.object({}),
  }),
  'cost-line': kept({
    help: 'Note a line of the estimate, or the price agreed for it.',
    in: z.object({
      row: named.optional(),
      title: shortWords.optional(),
      sort: z.enum(costSorts).optional(),
      trade: shortWords.optional(),
      firm: named.optional(),
      estimate: amount.optional(),
      agreed: amount.optional(),
      note: words.optional(),
    }),
  }),
  'change-order': kept({
    help: 'Note a change order on a line: more, or less with a minus.',
    in: z.object({
      row: named.optional(),
      line: named.optional(),
      amount: amount.optional(),
      title: shortWords.optional(),
      number: shortWords.optional(),
      day: daySchema.optional(),
      /** The contingency gives it. */
      fromContingency: z.boolean().optional(),
      edition: named.optional(),
    }),
  }),
  invoice: kept({
    help: 'Note an invoice (or receipt) on a line of the estimate.',
    in: z.object({
      row: named.optional(),
      line: named.optional(),
      amount: amount.optional(),
      payee: shortWords.optional(),
      firm: named.optional(),
      number: shortWords.optional(),
      day: daySchema.optional(),
      /** Of the amount: held back until the end. */
      held: amount.optional(),
      edition: named.optional(),
    }),
  }),
  payment: kept({
    help: 'Note a payment on an invoice, and the day it cleared.',
    in: z.object({
      row: named.optional(),
      invoice: named.optional(),
      amount: amount.optional(),
      day: daySchema.optional(),
      how: shortWords.optional(),
      cleared: daySchema.optional(),
      edition: named.optional(),
    }),
  }),
  waiver: kept({
    help: 'Note a lien waiver that came in for an invoice; the form itself is your state’s.',
    in: z.object({
      row: named.optional(),
      invoice: named.optional(),
      kind: z.enum(waiverKinds).optional(),
      /** Signed by a supplier who gave notice, rather than by the payee. */
      notice: named.optional(),
      day: daySchema.optional(),
      through: daySchema.optional(),
      amount: amount.optional(),
      exceptions: words.optional(),
      edition: named.optional(),
    }),
  }),
  notice: kept({
    help: 'Note a supplier’s notice that it delivers for a firm on the job.',
    in: z.object({
      row: named.optional(),
      supplier: shortWords.optional(),
      firm: named.optional(),
      day: daySchema.optional(),
      since: daySchema.optional(),
      delivers: shortWords.optional(),
      edition: named.optional(),
    }),
  }),
  draw: kept({
    help: 'Draw up a draw by line, note that it was asked for, or that the lender paid.',
    in: z.object({
      row: named.optional(),
      number: z.number().int().min(1).max(999).optional(),
      day: daySchema.optional(),
      /** Line -> work since the draw before. */
      work: z.record(shortWords, z.string().max(40)).optional(),
      /** Line -> all that is stored on the site now. */
      stored: z.record(shortWords, z.string().max(40)).optional(),
      /** Retainage in percent, of work and of stored material. */
      retainage: percent.optional(),
      storedRetainage: percent.optional(),
      final: z.boolean().optional(),
      asked: daySchema.optional(),
      paid: daySchema.optional(),
      paidAmount: amount.optional(),
      /** Why it is asked for although something is missing. */
      anyway: words.optional(),
    }),
  }),
  'remove-cost': request<{ readonly act: string }>()({
    help: 'Take a row of the costs away; undo brings it back.',
    in: z.object({ what: z.enum(costRows), row: named }),
  }),
  'draw-check': request<DrawCheckAnswer>()({
    help: 'Show what a lender would refuse of a draw, and why.',
    in: z.object({ draw: named }),
  }),
  trades: request<TradesAnswer>()({
    help: 'Show the firms, their days on site, and what is in hand for each day; who is there without cover.',
    in: z.object({}),
  }),
  'change-firm': request<{ readonly act: string; readonly subject: string }>()({
    help: 'One firm leaves and another takes over its trade on a day.',
    in: z.object({ firm: named, by: shortWords, day: daySchema, until: daySchema.optional() }),
  }),
  comment: kept({
    help: 'Note or correct a numbered comment an office sent back: its number, deadline, what closes it.',
    in: z.object({
      row: rowId.optional(),
      visit: rowId.optional(),
      errand: named.optional(),
      number: shortWords.optional(),
      text: words.optional(),
      due: daySchema.optional(),
      evidence: named.optional(),
    }),
  }),
  'remove-comment': request<{ readonly act: string }>()({
    help: 'Take away a comment that was noted by mistake.',
    in: z.object({ comment: rowId }),
  }),
} as const;
