import * as z from 'zod';
import { printings } from '../../vocabulary/forms.ts';
import { request } from './define.ts';
import type { FilledAnswer, FormAnswer, MapAnswer } from './form-answers.ts';
import { named, practiceId, shortWords, ticketSchema } from './values.ts';

const formWanted = {
  errand: practiceId,
  /** Which need, where the errand has several forms. */
  need: practiceId.optional(),
  subject: named.optional(),
  /** The kept paper that is the blank, where it isn't known by its boxes. */
  blank: named.optional(),
};

const boxName = z.string().min(1).max(500);

/** An office's own form, filled from what the lot knows. */
export const formRequests = {
  'form-fields': request<FormAnswer>()({
    help: 'Show the boxes of an errand’s form: what would stand in each, from where, what is missing, what nobody mapped.',
    in: z.object(formWanted),
    long: true,
  }),
  'fill-form': request<FilledAnswer>()({
    help: 'Fill a copy of an errand’s form and keep it for the packet; the blank stays. Signatures are yours.',
    in: z.object({
      ...formWanted,
      /** Only make the copy to look at it. */
      look: z.boolean().default(false),
    }),
    long: true,
  }),
  'map-form': request<MapAnswer>()({
    help: 'Say what fills the boxes of a form: --fill owner_1="owner 1" --fill sig="by hand"; or take over a practice file with --file. See templates/forms/README.md.',
    in: z.object({
      form: practiceId,
      title: shortWords.optional(),
      /** Box -> source; "by hand" for your own hand, "leave" to leave it empty, "drop" to forget what was said. */
      fills: z.record(boxName, z.string().trim().min(1).max(300)).default({}),
      /** Box -> how its value is printed. */
      prints: z.record(boxName, z.enum(printings)).default({}),
      /** A practice file with mappings (and the questions they ask), taken over as it is. */
      file: ticketSchema.optional(),
      /** Whether values become part of the page. */
      flatten: z.boolean().optional(),
    }),
  }),
} as const;
