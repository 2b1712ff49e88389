import type * as z from 'zod';
import type { Lot } from '../store/index.ts';
import type { Day } from '../vocabulary/days.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import type { LaunchWorker } from '../workers/launch.ts';
import type { Progress, WorkPort } from '../workers/port.ts';
import type { RequestSpec } from './contract/define.ts';
import type { RequestName } from './contract/requests.ts';
import type { Tickets } from './tickets.ts';

/** Who runs the desk; told to a second program that finds the lot in use. */
export interface DeskHost {
  readonly program: string;
  /** Hosts alone read the clock; a fixed day makes a run repeatable. */
  readonly today?: (() => Day) | undefined;
  /** How worker processes are started, where node's own way is closed. */
  readonly launchWorker?: LaunchWorker | undefined;
  /** A folder of the host's own where files lie that were handed over; what is removed for good goes from there too. */
  readonly handedOver?: string | undefined;
  /** The host stays on: the tables of open lots are watched, and what lies there is read while nobody waits. */
  readonly stays?: boolean | undefined;
}

/** What every feature may use. */
export interface At {
  readonly request: RequestName;
  readonly host: DeskHost;
  readonly tickets: Tickets;
  readonly day: Day;
  readonly signal: AbortSignal;
  readonly progress: (at: Progress) => void;
  readonly workers: () => Promise<WorkPort>;
  /** Workers of their own for what takes long and can wait: they let everything else go first. */
  readonly patientWorkers: () => Promise<WorkPort>;
  /** Registers the lot open in a folder and gives its handle. */
  readonly register: (lot: Lot, folder: string) => string;
  /** The same standpoint on an open lot. */
  readonly onLot: (handle: string) => AtLot;
  /** The handle of the lot this desk already has open in a folder: windows share it. */
  readonly openIn: (folder: string) => { readonly handle: string; readonly lot: Lot } | undefined;
}

/** Names a companion of open lots and says how it is made. */
export interface Beside<T extends Disposable> {
  readonly name: string;
  readonly make: (at: AtLot) => T;
  /** Tells a companion found under the name from any other. */
  readonly is: (found: Disposable) => found is T;
}

/** The same, on an open lot. */
export interface AtLot extends At {
  readonly handle: string;
  readonly lot: Lot;
  /** What lives beside the open lot, made on first need and disposed of when the lot is closed. */
  readonly beside: <T extends Disposable>(what: Beside<T>) => T;
  /** Tells every window that something in the lot changed that no request of theirs did. */
  readonly tellChanged: (act: string) => void;
  /** Closes the lot and forgets the handle. */
  readonly release: () => void;
}

/** A feature made ready for any host: it checks what comes and answers in the contract's type. */
export type Runner<Out> = (argument: unknown, at: At, lotAt: () => AtLot) => Promise<Out>;

function expectedInWords(expected: string): string {
  return `${/^[aeiou]/.test(expected) ? 'an' : 'a'} ${expected}`;
}

/** What a schema says, as a person would. */
function issueInWords(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return issue.input === undefined
        ? `needs ${issue.expected === 'string' ? 'words' : expectedInWords(issue.expected)}`
        : `is no ${issue.expected}`;
    case 'too_small':
      return issue.origin === 'string' ? 'is empty' : `needs at least ${issue.minimum}`;
    case 'too_big':
      return issue.origin === 'string' ? `is longer than ${issue.maximum} letters` : `takes at most ${issue.maximum}`;
    case 'invalid_value':
      return `takes one of: ${issue.values.map(String).join(', ')}`;
    case 'invalid_format':
    case 'custom':
      return `is not ${issue.message}`;
    default:
      return issue.message;
  }
}

/** Schema issues as a sentence: which field, what it wants. */
function checked<In extends z.ZodType>(schema: In, argument: unknown, request: string): z.output<In> {
  const read = schema.safeParse(argument ?? {});
  if (read.success) return read.data;
  const [first] = read.error.issues;
  const field = first?.path.join('.') ?? '';
  const where = field === '' ? request : `${request}, ${field}`;
  throw new LotfileError('wrong use', `${where}: ${first === undefined ? 'not understood' : issueInWords(first)}.`, {
    about: request,
    next: `See what it takes: ${request} --help.`,
  });
}

/** A feature that works on an open lot. */
export function onLot<In extends z.ZodType, Out>(
  spec: RequestSpec<In, Out>,
  handle: (input: z.output<In>, at: AtLot) => Out | Promise<Out>,
): Runner<Out> {
  return async (argument, at, lotAt) => handle(checked(spec.in, argument, at.request), lotAt());
}

/** A feature that needs no open lot. */
export function onDesk<In extends z.ZodType, Out>(
  spec: RequestSpec<In, Out>,
  handle: (input: z.output<In>, at: At) => Out | Promise<Out>,
): Runner<Out> {
  return async (argument, at) => handle(checked(spec.in, argument, at.request), at);
}
