import { statSync } from 'node:fs';
import { LotfileError } from '../vocabulary/errors.ts';
import type { Done, Job } from './job.ts';
import type { FromWorker } from './messages.ts';
import type { WorkControl } from './port.ts';
import { outOfMemory } from './watchdog.ts';
import type { WorkerProcess } from './worker-process.ts';

export type Control = WorkControl;

/** Milliseconds a job may take. */
export interface TimeLimits {
  /** For opening a file of so many bytes, and for whatever comes after its pages are known. */
  readonly open: (bytes: number) => number;
  readonly page: number;
  /** For a page whose letters are looked for in its picture, all ways round if need be. */
  readonly readPage?: number | undefined;
}

/**
 * Two minutes, a second more for each megabyte, two for each page: many times what a sound file takes, also on a machine
 * that is busy with other things; a heavy drawing is drawn several times before it is kept.
 */
const generous: TimeLimits = { open: (bytes: number) => 120_000 + bytes / 1024, page: 2000 };

/** The person stopped it. */
export function stopped(job: Job): LotfileError {
  return new LotfileError('stopped', `Reading "${job.name}" was stopped.`, { about: job.name });
}

/** The file whose size says how long the job may take. */
function inputOf(job: Job): string {
  return job.job === 'suggest' ? (job.parts[0]?.texts ?? '') : job.input;
}

function gaveUp(job: Job, why: string): LotfileError {
  return new LotfileError('file refused', `"${job.name}" ${why}`, {
    about: job.name,
    next: 'Open it in another program, print it to PDF, and drop in the print; split a very large file in parts.',
  });
}

/** One job in one worker, with everything that may cut it short. */
export class Run {
  readonly #worker: WorkerProcess;
  readonly #job: Job;
  readonly #time: TimeLimits;
  readonly #outcome = Promise.withResolvers<Done>();
  #timer: NodeJS.Timeout | undefined;
  /** Why we ended the worker ourselves. */
  #reason: LotfileError | undefined;

  constructor(worker: WorkerProcess, job: Job, time: TimeLimits = generous) {
    this.#worker = worker;
    this.#job = job;
    this.#time = time;
  }

  async finish(id: number, control: Control): Promise<Done> {
    const { signal } = control;
    if (signal?.aborted === true) throw stopped(this.#job);
    const onAbort = () => this.#end(stopped(this.#job));
    signal?.addEventListener('abort', onAbort, { once: true });
    this.#allow(this.#time.open(statSync(inputOf(this.#job), { throwIfNoEntry: false })?.size ?? 0));
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
      if (message.done <= 1) this.#allow(this.#time.open(0) + message.of * this.#perPage());
      control.onProgress?.({ what: `Reading ${this.#job.name}`, done: message.done, of: message.of });
      return;
    }
    this.#worker.memory = message.memory;
    if (message.say === 'failed') this.#outcome.reject(LotfileError.from(message.error));
    else this.#outcome.resolve(message.result);
  }

  #perPage(): number {
    return this.#job.job === 'keep' ? this.#time.page : (this.#time.readPage ?? 30_000);
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
