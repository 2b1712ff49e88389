import { rmSync } from 'node:fs';
import { totalmem } from 'node:os';
import { extname } from 'node:path';
import type { FillFormDone, FillFormJob } from '../forms/file/fill-blank.ts';
import type { ReadFormDone, ReadFormJob } from '../forms/file/read-blank.ts';
import { scrapsOf } from '../intake/keep-context.ts';
import type { UnpackDone, UnpackJob } from '../intake/mail/unpack-model.ts';
import type {
  ReadDone,
  ReadJob,
  SuggestDone,
  SuggestJob,
  WriteOutDone,
  WriteOutJob,
} from '../intake/ocr/read-model.ts';
import type { GlimpseDone, GlimpseJob } from '../intake/pictures/glimpse-model.ts';
import type { KeepDone, KeepJob } from '../intake/rendition-model.ts';
import type { SlimDone, SlimJob } from '../intake/slim/slim-model.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import type { Done, Job } from './job.ts';
import type { LaunchWorker } from './launch.ts';
import type { WorkPort } from './port.ts';
import { type Control, Run, stopped, type TimeLimits } from './run-job.ts';
import { WorkerProcess } from './worker-process.ts';

export interface WorkersOptions {
  /** The worker program; another one where it was packed elsewhere. */
  readonly program?: string | URL | undefined;
  /** How many run side by side; 2 by default. */
  readonly count?: number | undefined;
  /** Resident memory that ends a worker; by default half of the machine's, 1 to 3 GB. */
  readonly memoryMB?: number | undefined;
  readonly time?: TimeLimits | undefined;
  /** Lets every other program go first: for work that nobody waits for. */
  readonly patient?: boolean | undefined;
  /** How a process is started; node's own way unless said. */
  readonly launch?: LaunchWorker | undefined;
}

/** Beside this file, as TypeScript or as it was built. */
const workerMain = new URL(`./worker-main${extname(import.meta.filename)}`, import.meta.url);

/** WebAssembly memory never shrinks: a worker that grew, or did many jobs, is replaced. */
const retireAt = { jobs: 40, bytes: 600 * 1024 * 1024 };

function defaultMemory(): number {
  return Math.min(3072, Math.max(1024, Math.round(totalmem() / 2 / 1024 / 1024)));
}

function sweep(job: Job): void {
  if (job.job === 'read' || job.job === 'suggest' || job.job === 'read form') return;
  if (job.job === 'unpack') {
    rmSync(job.output, { recursive: true, force: true });
    return;
  }
  for (const path of [job.output, ...scrapsOf(job.output)]) rmSync(path, { force: true });
}

function wrongAnswer(job: Job): LotfileError {
  return new LotfileError('internal', `The program that reads papers answered something else about "${job.name}".`);
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
    const done = await this.#do(job, control);
    if ('rendition' in done) return done;
    throw wrongAnswer(job);
  }

  async read(job: ReadJob, control: Control = {}): Promise<ReadDone> {
    const done = await this.#do(job, control);
    if ('pages' in done && !('fits' in done)) return done;
    throw wrongAnswer(job);
  }

  async writeOut(job: WriteOutJob, control: Control = {}): Promise<WriteOutDone> {
    const done = await this.#do(job, control);
    if ('written' in done) return done;
    throw wrongAnswer(job);
  }

  async suggest(job: SuggestJob, control: Control = {}): Promise<SuggestDone> {
    const done = await this.#do(job, control);
    if ('reading' in done) return done;
    throw wrongAnswer(job);
  }

  async glimpse(job: GlimpseJob, control: Control = {}): Promise<GlimpseDone> {
    const done = await this.#do(job, control);
    if ('glimpse' in done) return done;
    throw wrongAnswer(job);
  }

  async unpack(job: UnpackJob, control: Control = {}): Promise<UnpackDone> {
    const done = await this.#do(job, control);
    if ('mails' in done) return done;
    throw wrongAnswer(job);
  }

  async slim(job: SlimJob, control: Control = {}): Promise<SlimDone> {
    const done = await this.#do(job, control);
    if ('fits' in done) return done;
    throw wrongAnswer(job);
  }

  async readForm(job: ReadFormJob, control: Control = {}): Promise<ReadFormDone> {
    const done = await this.#do(job, control);
    if ('blank' in done) return done;
    throw wrongAnswer(job);
  }

  async fillForm(job: FillFormJob, control: Control = {}): Promise<FillFormDone> {
    const done = await this.#do(job, control);
    if ('filled' in done) return done;
    throw wrongAnswer(job);
  }

  async #do(job: Job, control: Control): Promise<Done> {
    if (control.signal?.aborted === true) throw stopped(job);
    await this.#turn(job, control.signal);
    try {
      return await this.#doNow(job, control);
    } finally {
      this.#handOn();
    }
  }

  async close(): Promise<void> {
    const idle = this.#idle.splice(0);
    for (const worker of idle) worker.kill();
    await Promise.all(idle.map((worker) => worker.ended));
  }

  /** Waits for a free place; a place that frees up is handed to the first in line. */
  async #turn(job: Job, signal: AbortSignal | undefined): Promise<void> {
    if (this.#free > 0) {
      this.#free -= 1;
      return;
    }
    const place = Promise.withResolvers<void>();
    const onAbort = () => {
      const at = this.#line.indexOf(place.resolve);
      if (at < 0) return;
      this.#line.splice(at, 1);
      place.reject(stopped(job));
    };
    this.#line.push(place.resolve);
    signal?.addEventListener('abort', onAbort, { once: true });
    await place.promise;
    signal?.removeEventListener('abort', onAbort);
  }

  #handOn(): void {
    const next = this.#line.shift();
    if (next === undefined) this.#free += 1;
    else next();
  }

  async #doNow(job: Job, control: Control): Promise<Done> {
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
    const { program = workerMain, memoryMB = defaultMemory(), launch, patient } = this.#options;
    return new WorkerProcess({ program, memoryMB, launch, patient });
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
