import { rmSync, statSync } from 'node:fs';
import { totalmem } from 'node:os';
import { scrapsOf } from '../intake/keep-context.ts';
import type { KeepDone, KeepJob } from '../intake/rendition-model.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import type { FromWorker } from './messages.ts';
import type { WorkPort } from './port.ts';
import { outOfMemory } from './watchdog.ts';
import { WorkerProcess } from './worker-process.ts';

type Control = NonNullable<Parameters<WorkPort['keep']>[1]>;

export interface WorkersOptions {
  /** The worker program; another one where it was packed elsewhere. */
  readonly program?: string | URL | undefined;
  /** How many run side by side; 2 by default. */
  readonly count?: number | undefined;
  /** Resident memory that ends a worker; by default half of the machine's, 1 to 3 GB. */
  readonly memoryMB?: number | undefined;
  /** Milliseconds for opening a file of so many bytes, and for each of its pages. */
  readonly time?: { readonly open: (bytes: number) => number; readonly page: number } | undefined;
}

/** WebAssembly memory never shrinks: a worker that grew, or did many jobs, is replaced. */
const retireAt = { jobs: 40, bytes: 600 * 1024 * 1024 };

const generous = { open: (bytes: number) => 60_000 + bytes / 1024, page: 1000 };

function defaultMemory(): number {
  return Math.min(3072, Math.max(1024, Math.round(totalmem() / 2 / 1024 / 1024)));
}

function sweep(job: KeepJob): void {
  for (const path of [job.output, ...scrapsOf(job.output)]) rmSync(path, { force: true });
}

function stopped(job: KeepJob): LotfileError {
  return new LotfileError('stopped', `Reading "${job.name}" was stopped.`, { about: job.name });
}

function gaveUp(job: KeepJob, why: string): LotfileError {
  return new LotfileError('file refused', `"${job.name}" ${why}`, {
    about: job.name,
    next: 'Open it in another program, print it to PDF, and drop in the print; split a very large file in parts.',
  });
}

/** One job in one worker, with everything that may cut it short. */
class Run {
  readonly #worker: WorkerProcess;
  readonly #job: KeepJob;
  readonly #time: { readonly open: (bytes: number) => number; readonly page: number };
  readonly #outcome = Promise.withResolvers<KeepDone>();
  #timer: NodeJS.Timeout | undefined;
  /** Why we ended the worker ourselves. */
  #reason: LotfileError | undefined;

  constructor(worker: WorkerProcess, job: KeepJob, time: WorkersOptions['time']) {
    this.#worker = worker;
    this.#job = job;
    this.#time = time ?? generous;
  }

  async finish(id: number, control: Control): Promise<KeepDone> {
    const { signal } = control;
    const onAbort = () => this.#end(stopped(this.#job));
    signal?.addEventListener('abort', onAbort, { once: true });
    this.#allow(this.#time.open(statSync(this.#job.input, { throwIfNoEntry: false })?.size ?? 0));
    this.#worker.order({ id, job: this.#job }, (message) => this.#hear(message, id, control));
    try {
      const fell = this.#worker.ended.then((end) => {
        throw this.#reason ?? this.#crashed(end.wasReady, end.lastWords);
      });
      return await Promise.race([this.#outcome.promise, fell]);
    } finally {
      clearTimeout(this.#timer);
      signal?.removeEventListener('abort', onAbort);
    }
  }

  #hear(message: FromWorker, id: number, control: Control): void {
    if (message.say === 'ready' || message.id !== id) return;
    if (message.say === 'page') {
      if (message.done === 1) this.#allow(this.#time.open(0) + message.of * this.#time.page);
      control.onProgress?.({ what: `Reading ${this.#job.name}`, done: message.done, of: message.of });
      return;
    }
    this.#worker.memory = message.memory;
    if (message.say === 'done') this.#outcome.resolve(message.result);
    else this.#outcome.reject(LotfileError.from(message.error));
  }

  #allow(milliseconds: number): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(
      () => this.#end(gaveUp(this.#job, 'takes longer to read than any sound file.')),
      milliseconds,
    );
  }

  #end(reason: LotfileError): void {
    this.#reason = reason;
    this.#worker.kill();
  }

  #crashed(wasReady: boolean, lastWords: string): LotfileError {
    if (lastWords.includes(outOfMemory)) return gaveUp(this.#job, 'takes more memory to read than is allowed.');
    if (wasReady) return gaveUp(this.#job, 'makes the reader break down.');
    return new LotfileError(
      'internal',
      `The program that reads papers did not start: ${lastWords.trim().slice(0, 300)}`,
    );
  }
}

/** Warm workers, handed out one job at a time; whoever finds none waits in line. */
class Workers implements WorkPort {
  readonly #options: WorkersOptions;
  readonly #idle: WorkerProcess[] = [];
  readonly #line: (() => void)[] = [];
  #free: number;
  #lastId = 0;

  constructor(options: WorkersOptions) {
    this.#options = options;
    this.#free = Math.max(1, options.count ?? 2);
  }

  async keep(job: KeepJob, control: Control = {}): Promise<KeepDone> {
    await this.#turn();
    try {
      if (control.signal?.aborted === true) throw stopped(job);
      return await this.#keepNow(job, control);
    } finally {
      this.#free += 1;
      this.#line.shift()?.();
    }
  }

  async close(): Promise<void> {
    const idle = this.#idle.splice(0);
    for (const worker of idle) worker.kill();
    await Promise.all(idle.map((worker) => worker.ended));
  }

  async #turn(): Promise<void> {
    while (this.#free === 0) await new Promise<void>((resolve) => this.#line.push(resolve));
    this.#free -= 1;
  }

  async #keepNow(job: KeepJob, control: Control): Promise<KeepDone> {
    const worker = this.#take();
    this.#lastId += 1;
    try {
      return await new Run(worker, job, this.#options.time).finish(this.#lastId, control);
    } catch (problem) {
      if (!worker.alive) await worker.ended;
      sweep(job);
      throw LotfileError.from(problem);
    } finally {
      this.#giveBack(worker);
    }
  }

  #take(): WorkerProcess {
    for (let worker = this.#idle.pop(); worker !== undefined; worker = this.#idle.pop()) {
      if (worker.alive) return worker;
    }
    const program = this.#options.program ?? new URL('./worker-main.ts', import.meta.url);
    return new WorkerProcess({ program, memoryMB: this.#options.memoryMB ?? defaultMemory() });
  }

  #giveBack(worker: WorkerProcess): void {
    if (!worker.alive) return;
    if (worker.jobs >= retireAt.jobs || worker.memory > retireAt.bytes) {
      worker.kill();
      return;
    }
    worker.rest();
    this.#idle.push(worker);
  }
}

/** Opens the port behind which files are kept: workers start on first need and stay warm. */
export function openWorkers(options: WorkersOptions = {}): WorkPort {
  return new Workers(options);
}
