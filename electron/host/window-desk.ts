import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import * as z from 'zod';
import { type Desk, openDesk } from '../../core/desk/desk.ts';
import {
  type Day,
  type HostActAnswer,
  type HostActName,
  isDay,
  isHostActName,
  isRequestName,
  type LaunchWorker,
  LotfileError,
  type Reply,
  type RequestAnswer,
  type RequestName,
  type SampleName,
  sampleNames,
  type TakenFile,
  type WindowEvent,
} from '../../core/desk/door.ts';
import { type ActRunner, actRunners } from './act-runners.ts';
import { todayByTheClock } from './clock.ts';
import type { Dialogs } from './dialogs.ts';
import { LettingGo } from './letting-go.ts';
import type { Places } from './places.ts';
import { Recents } from './recents.ts';
import { SampleLot } from './sample-lot.ts';
import { sampleState } from './sample-state.ts';
import { WindowHolds } from './window-holds.ts';

export interface WindowDeskOptions {
  /** Told to a second program that finds the lot in use. */
  readonly program: string;
  readonly version: string;
  readonly places: Places;
  readonly dialogs?: Dialogs | undefined;
  /** A fixed day makes a run repeatable. */
  readonly today?: (() => Day) | undefined;
  /** How worker processes are started, where node's own way is closed. */
  readonly launchWorker?: LaunchWorker | undefined;
}

/** A lot some window has open. */
export interface OpenedLot {
  readonly lot: string;
  readonly title: string;
  readonly sample: boolean;
}

export interface FileHandedOver {
  readonly path: string;
  readonly name: string;
  readonly bytes: number;
  /** The window it came from. */
  readonly window: string;
}

/** Milliseconds that stopped work may take to put its things away. */
const patience = 5000;

const short = z.string().min(1).max(100);
/** What may stand beside an argument; it comes over a wire, so it is checked. */
const askingSchema = z.strictObject({
  lot: short.optional(),
  on: z.custom<Day>((value) => typeof value === 'string' && isDay(value)).optional(),
  id: short.optional(),
});
const folderIn = z.object({ folder: z.string() });
const openedIn = z.object({ lot: z.string(), title: z.string() });

function wrongUse(message: string, next: string): LotfileError {
  return new LotfileError('wrong use', message, { next });
}

/**
 * What every window host is made of: one desk, answering whatever came over a wire. Names and arguments are untyped
 * here and checked before anything happens; errors leave as data.
 */
export class WindowDesk {
  readonly desk: Desk;
  readonly version: string;
  readonly places: Places;
  readonly dialogs: Dialogs | undefined;
  readonly recents: Recents;
  readonly today: () => Day;
  readonly #samples: ReadonlyMap<SampleName, SampleLot>;
  readonly #holds = new WindowHolds();
  readonly #handed = new LettingGo((ticket) => this.desk.tickets.takeBack(ticket));
  readonly #running = new Map<string, AbortController>();
  readonly #work = new Set<Promise<object>>();
  readonly #closing = new AbortController();
  readonly #folders = new Map<string, string>();
  readonly #listeners = new Set<(event: WindowEvent) => void>();
  readonly #onOpened = new Set<(opened: OpenedLot) => void>();

  constructor(options: WindowDeskOptions) {
    const { program, version, places, dialogs, today = todayByTheClock, launchWorker } = options;
    const handedOver = join(places.config, 'handed-over');
    this.desk = openDesk({ program, today, launchWorker, handedOver, stays: true });
    this.version = version;
    this.places = places;
    this.dialogs = dialogs;
    this.today = today;
    this.recents = new Recents(places.config);
    const look = (path: string) => sampleState(this.desk, this.#holds, this.folderTicket(path));
    this.#samples = new Map(
      sampleNames.map((name) => [name, new SampleLot(places.config, { version, look, name })] as const),
    );
    this.desk.on('progress', (told) => this.tell({ event: 'progress', told }));
    this.desk.on('changed', (told) => this.tell({ event: 'changed', told }));
  }

  /** @param window tells windows apart, so that one closing a lot leaves it to the others. */
  ask(name: string, argument: unknown, beside: unknown, window = ''): Promise<Reply<RequestAnswer<RequestName>>> {
    return this.#reply(() => {
      if (!isRequestName(name)) throw wrongUse(`There is no request "${name}".`, 'Load the window again.');
      const asking = askingSchema.safeParse(beside ?? {});
      if (!asking.success) throw wrongUse('The request was not understood.', 'Load the window again.');
      return this.#ask(name, argument, asking.data, window);
    });
  }

  act(name: string, argument: unknown): Promise<Reply<HostActAnswer<HostActName>>> {
    return this.#reply(() => {
      if (!isHostActName(name)) throw wrongUse(`There is no act "${name}".`, 'Load the window again.');
      const run: ActRunner<HostActAnswer<HostActName>> = actRunners[name];
      return run(argument, this);
    });
  }

  /** Stops a long asking; harmless when it has ended. */
  stop(id: string): void {
    this.#running.get(id)?.abort();
  }

  /** A ticket for a folder: the same one as long as this host runs. */
  folderTicket(path: string): string {
    const known = this.#folders.get(path);
    if (known !== undefined) return known;
    const ticket = this.desk.tickets.offer(path);
    this.#folders.set(path, ticket);
    return ticket;
  }

  /** Takes a file of the person's own disk. */
  take(path: string, name: string, bytes: number): TakenFile {
    return { ticket: this.desk.tickets.offer(path, name), name, bytes };
  }

  /** Takes a file that came as bytes and lies with the host: it is let go when nobody needs it any more. */
  takeOver({ path, name, bytes, window }: FileHandedOver): TakenFile {
    const taken = this.take(path, name, bytes);
    this.#handed.add(taken.ticket, { path, window });
    return taken;
  }

  /** @param name how far the sample is along its way. */
  async sampleLot(name: SampleName = 'permit'): Promise<HostActAnswer<'sample-lot'>> {
    const sample = this.#samples.get(name);
    if (sample === undefined) throw wrongUse(`There is no sample "${name}".`, 'Load the window again.');
    const { path, day } = await sample.get((told) => this.tell({ event: 'progress', told }));
    return { folder: this.folderTicket(path), day };
  }

  on(listener: (event: WindowEvent) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  onOpened(listener: (opened: OpenedLot) => void): void {
    this.#onOpened.add(listener);
  }

  tell(event: WindowEvent): void {
    for (const listener of this.#listeners) listener(event);
  }

  /** A window went away for good: lots that only it had open are closed. */
  async windowGone(window: string): Promise<void> {
    this.#holds.gone(window);
    this.#handed.windowGone(window);
    if (this.#work.size === 0) this.#handed.rest();
    // Nobody is left to be told; whoever opens the lot next is.
    await this.#closeIdle().catch(() => undefined);
  }

  /** Stops what is at work, lets it put its things away, and closes every lot. */
  async close(): Promise<void> {
    this.#closing.abort();
    for (const sample of this.#samples.values()) await sample.close();
    await Promise.race([Promise.allSettled(this.#work), setTimeout(patience, undefined, { ref: false })]);
    await this.desk.close();
  }

  async [Symbol.asyncDispose](): Promise<void> {
    await this.close();
  }

  async #reply<Answer>(run: () => Promise<Answer>): Promise<Reply<Answer>> {
    try {
      return { ok: true, answer: await run() };
    } catch (error) {
      return { ok: false, error: LotfileError.from(error).toJSON() };
    }
  }

  async #ask<N extends RequestName>(
    name: N,
    argument: unknown,
    asking: z.infer<typeof askingSchema>,
    window: string,
  ): Promise<RequestAnswer<N> | RequestAnswer<'close-lot'>> {
    const { lot, on, id } = asking;
    if (name === 'close-lot' && lot !== undefined && this.#holds.close(lot, window)) {
      await this.#closeIdle();
      return { closed: true };
    }
    const signal = this.#mayBeStopped(id);
    const work = this.#holds.working(lot, () => this.desk.askUntyped(name, argument, { lot, on, id, signal }));
    this.#work.add(work);
    try {
      const answer = await work;
      if (name === 'open-lot' || name === 'new-lot') this.#opened(argument, answer, window);
      this.#handed.answered(name, argument, answer);
      return answer;
    } finally {
      this.#work.delete(work);
      if (this.#work.size === 0) this.#handed.rest();
      if (id !== undefined) this.#running.delete(id);
      // The last work in a lot that nobody has open any more; whoever opens it next is told what is wrong with it.
      await this.#closeIdle().catch(() => undefined);
    }
  }

  #mayBeStopped(id: string | undefined): AbortSignal {
    if (id === undefined) return this.#closing.signal;
    if (this.#running.has(id)) throw wrongUse('This was asked already and is still at work.', 'Wait for its end.');
    const stop = new AbortController();
    this.#running.set(id, stop);
    return AbortSignal.any([stop.signal, this.#closing.signal]);
  }

  #opened(argument: unknown, answer: object, window: string): void {
    const { lot, title } = openedIn.parse(answer);
    this.#holds.open(lot, window);
    const { path } = this.desk.tickets.look(folderIn.parse(argument).folder);
    const sample = [...this.#samples.values()].some((one) => one.isIt(path));
    if (!sample) this.#remember(path, title);
    for (const listener of this.#onOpened) listener({ lot, title, sample });
  }

  #remember(path: string, title: string): void {
    try {
      this.recents.remember(path, title, this.today());
    } catch {
      // The list is a convenience: a lot opens without it, and is chosen by its folder the next time.
    }
  }

  async #closeIdle(): Promise<void> {
    for (const lot of this.#holds.takeIdle()) await this.desk.ask('close-lot', {}, { lot });
  }
}
