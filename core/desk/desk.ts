import { randomUUID } from 'node:crypto';
import { realpathSync } from 'node:fs';
import { basename, resolve } from 'node:path';
import type { Lot } from '../store/index.ts';
import { fileTrouble } from '../store/trouble.ts';
import { asDay, type Day } from '../vocabulary/days.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import type { WorkPort } from '../workers/port.ts';
import type { At, AtLot, Beside, DeskHost } from './context.ts';
import type { DeskEventName, DeskEvents } from './contract/events.ts';
import type { RequestAnswer, RequestArgument, RequestName } from './contract/requests.ts';
import { runners } from './features/runners.ts';
import { Tickets } from './tickets.ts';

export type { DeskHost } from './context.ts';

/** Beside the argument: which lot, as of which day, and how to stop it. */
export interface Asking {
  readonly lot?: string | undefined;
  readonly on?: Day | undefined;
  readonly signal?: AbortSignal | undefined;
  /** Names this asking in the progress it tells. */
  readonly id?: string | undefined;
}

/** The local calendar day: the one place below a host that reads a clock. */
function todayByTheClock(): Day {
  const now = new Date();
  const two = (value: number): string => String(value).padStart(2, '0');
  return asDay(`${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`);
}

/** One name for a folder, whichever way one comes to it; a folder that isn't there has only the name it was given. */
function trueName(folder: string): string {
  try {
    return realpathSync.native(folder);
  } catch {
    return resolve(folder);
  }
}

/** What the system says of a file (gone, not allowed, disk full) is no fault of ours: it has a sentence of its own. */
function inWords(error: unknown): LotfileError {
  const code = error instanceof Error && 'code' in error ? error.code : undefined;
  if (error instanceof LotfileError || typeof code !== 'string' || !/^E[A-Z0-9]+$/.test(code)) {
    return LotfileError.from(error);
  }
  const path = error instanceof Error && 'path' in error && typeof error.path === 'string' ? error.path : '';
  const about = path === '' ? 'a file' : `"${basename(path)}"`;
  return fileTrouble(error, path, `Reading or writing ${about}`);
}

interface OpenLot {
  readonly lot: Lot;
  readonly folder: string;
  /** Companions of the lot by name; they go before it does. */
  readonly beside: Map<string, Disposable>;
}

function closeOpen({ lot, beside }: OpenLot): void {
  for (const companion of beside.values()) companion[Symbol.dispose]();
  beside.clear();
  lot.close();
}

/** Every request goes through here, whichever host it came from. */
export class Desk {
  readonly tickets = new Tickets();
  readonly #host: DeskHost;
  readonly #lots = new Map<string, OpenLot>();
  readonly #onProgress = new Set<(event: DeskEvents['progress']) => void>();
  readonly #onChanged = new Set<(event: DeskEvents['changed']) => void>();
  #workers: Promise<WorkPort> | undefined;
  #patient: Promise<WorkPort> | undefined;

  constructor(host: DeskHost) {
    this.#host = host;
  }

  /**
   * Asks with types, for hosts written in code.
   * @throws LotfileError of the closed set, never anything else.
   */
  async ask<N extends RequestName>(
    name: N,
    argument: RequestArgument<N>,
    asking: Asking = {},
  ): Promise<RequestAnswer<N>> {
    return this.askUntyped(name, argument, asking);
  }

  /** Asks with whatever came over a wire; the argument is checked before anything happens. */
  async askUntyped<N extends RequestName>(name: N, argument: unknown, asking: Asking = {}): Promise<RequestAnswer<N>> {
    try {
      const at = this.#at(name, asking);
      const answer = await runners[name](argument, at, () => this.#atLot(at, asking.lot));
      this.#tellChanged(asking.lot, answer);
      return answer;
    } catch (error) {
      const told = inWords(error);
      throw asking.signal?.aborted === true && told.code !== 'stopped'
        ? new LotfileError('stopped', 'Stopped; nothing was left half done.')
        : told;
    }
  }

  on<E extends DeskEventName>(event: E, listener: (told: DeskEvents[E]) => void): () => void {
    const listeners: { readonly [K in DeskEventName]: Set<(told: DeskEvents[K]) => void> } = {
      progress: this.#onProgress,
      changed: this.#onChanged,
    };
    listeners[event].add(listener);
    return () => listeners[event].delete(listener);
  }

  /**
   * Closes every lot and ends the workers. One that can't be closed (its disk was taken away) is told at the end: it
   * keeps neither the others nor the workers.
   */
  async close(): Promise<void> {
    const troubles: unknown[] = [];
    for (const open of this.#lots.values()) {
      try {
        closeOpen(open);
      } catch (error) {
        troubles.push(error);
      }
    }
    this.#lots.clear();
    const both = [this.#workers, this.#patient];
    this.#workers = undefined;
    this.#patient = undefined;
    for (const workers of both) await (await workers)?.close();
    if (troubles.length > 0) throw inWords(troubles[0]);
  }

  async [Symbol.asyncDispose](): Promise<void> {
    await this.close();
  }

  #at(request: RequestName, asking: Asking): At {
    const at: At = {
      request,
      host: this.#host,
      tickets: this.tickets,
      day: asking.on ?? (this.#host.today ?? todayByTheClock)(),
      signal: asking.signal ?? new AbortController().signal,
      progress: (progress) => {
        for (const listener of this.#onProgress) listener({ request, id: asking.id, ...progress });
      },
      // Loaded on first need: most requests never touch a hostile byte.
      workers: () => {
        this.#workers ??= this.#openWorkers(false);
        return this.#workers;
      },
      patientWorkers: () => {
        this.#patient ??= this.#openWorkers(true);
        return this.#patient;
      },
      register: (lot, folder) => {
        const handle = `lot-${randomUUID()}`;
        this.#lots.set(handle, { lot, folder: trueName(folder), beside: new Map() });
        return handle;
      },
      onLot: (handle) => this.#atLot(at, handle),
      openIn: (folder) => this.#openIn(trueName(folder)),
    };
    return at;
  }

  #openIn(folder: string): { readonly handle: string; readonly lot: Lot } | undefined {
    for (const [handle, open] of this.#lots) if (open.folder === folder) return { handle, lot: open.lot };
    return undefined;
  }

  #atLot(at: At, handle: string | undefined): AtLot {
    const open = handle === undefined ? undefined : this.#lots.get(handle);
    if (handle === undefined || open === undefined) {
      throw new LotfileError('not found', 'No lot is open here.', { next: 'Open the lot folder first.' });
    }
    const atLot: AtLot = {
      ...at,
      handle,
      lot: open.lot,
      beside: <T extends Disposable>({ name, make, is }: Beside<T>): T => {
        const found = open.beside.get(name);
        if (found !== undefined && is(found)) return found;
        const made = make(atLot);
        open.beside.set(name, made);
        return made;
      },
      tellChanged: (act) => this.#tellChanged(handle, { act }),
      release: () => {
        this.#lots.delete(handle);
        closeOpen(open);
      },
    };
    return atLot;
  }

  async #openWorkers(patient: boolean): Promise<WorkPort> {
    const { openWorkers } = await import('../workers/process-port.ts');
    return openWorkers({ launch: this.#host.launchWorker, ...(patient ? { patient } : {}) });
  }

  #tellChanged(lot: string | undefined, answer: object): void {
    if (lot === undefined || !('act' in answer) || typeof answer.act !== 'string') return;
    for (const listener of this.#onChanged) listener({ lot, act: answer.act });
  }
}

/** Opens a desk for a host. Close it when done. */
export function openDesk(host: DeskHost): Desk {
  return new Desk(host);
}
