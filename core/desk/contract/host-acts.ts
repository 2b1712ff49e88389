import * as z from 'zod';
import type { Day } from '../../vocabulary/days.ts';
import { sampleNames } from '../../vocabulary/sample-names.ts';
import type { RequestSpec } from './define.ts';
import type { ShownPlace } from './table-answers.ts';
import { shortWords, ticketSchema } from './values.ts';

/** A lot that was opened here before. `key` stays the same from run to run, `folder` is good for this run only. */
export interface LotOffered {
  readonly key: string;
  readonly title: string;
  readonly folder: string;
  /** Its folder's name and where that lies, in words a person knows; never sent back. */
  readonly place: string;
  readonly lastOpened: Day;
  /** The folder is not where it was. */
  readonly gone: boolean;
}

export interface HostCard {
  readonly version: string;
  readonly today: Day;
  readonly lots: readonly LotOffered[];
  /** Lots that lie where new ones go and were not opened here yet, by their folders' names. */
  readonly found: readonly Pick<LotOffered, 'title' | 'folder' | 'place'>[];
  /** Lots that were left out of the list and still lie where they did, by their folders' names; opening one brings it back. */
  readonly leftOut: readonly Pick<LotOffered, 'title' | 'folder' | 'place'>[];
  /** Where new lots go, in words. */
  readonly newLotsGoTo: string;
  /** The same folder as it is on this computer. */
  readonly newLotsFolder: ShownPlace;
  /** The host can show the system's own dialogs (choose a folder, save as). */
  readonly dialogs: boolean;
}

function act<Out>() {
  return <In extends z.ZodType>(spec: { readonly help: string; readonly in: In }): RequestSpec<In, Out> => ({
    ...spec,
    lot: false,
    long: false,
  });
}

/** What a window asks of its host rather than of the desk; declared once for the desktop and the loopback host. */
export const hostActs = {
  host: act<HostCard>()({ help: 'Show what this host can do, and the lots opened before.', in: z.object({}) }),
  /** A new, empty folder for a lot; its name is made from the title. */
  'make-folder': act<{ readonly folder: string; readonly place: string }>()({
    help: 'Make a folder for a new lot.',
    in: z.object({ title: shortWords }),
  }),
  /** Nothing where the person cancelled or the host has no dialogs. */
  'choose-lot': act<{ readonly folder?: string | undefined }>()({
    help: 'Let the person choose a lot folder.',
    in: z.object({}),
  }),
  /** Made on first call from the invented papers; tells progress as request `sample-lot`. */
  'sample-lot': act<{ readonly folder: string; readonly day: Day }>()({
    help: 'Get a copy of the sample lot to try things on, and the day its story stands at.',
    in: z.object({ state: z.enum(sampleNames).default('permit') }),
  }),
  'forget-lot': act<{ readonly forgotten: boolean }>()({
    help: 'Leave a lot out of the list; its folder stays as it is.',
    in: z.object({ key: shortWords }),
  }),
  /** Desktop only: a save dialog, then a copy. In a browser the window follows the ticket's address instead. */
  save: act<{ readonly saved: boolean; readonly place: string }>()({
    help: 'Save a copy of a file where the person chooses.',
    in: z.object({ ticket: ticketSchema }),
  }),
  'show-file': act<{ readonly shown: boolean }>()({
    help: 'Show a file in its folder.',
    in: z.object({ ticket: ticketSchema }),
  }),
} as const;

export type HostActName = keyof typeof hostActs;
export type HostActArgument<N extends HostActName> = z.input<(typeof hostActs)[N]['in']>;
export type HostActAnswer<N extends HostActName> = NonNullable<(typeof hostActs)[N]['out']>;

export function isHostActName(text: string): text is HostActName {
  return Object.hasOwn(hostActs, text);
}
