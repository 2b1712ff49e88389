import { fstatSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { LotfileError } from '../../vocabulary/errors.ts';

/**
 * The thread's whole program. It stands here as text because a packaged desktop has no file to start a thread from,
 * and because it is all a hash needs.
 */
const program = `
const { parentPort } = require('node:worker_threads');
const { createHash } = require('node:crypto');
const { readSync } = require('node:fs');
const piece = Buffer.allocUnsafe(1048576);
const [mine, theirs] = [piece.subarray(0, 524288), piece.subarray(524288)];
const begun = new Map();
function fill(fd, into, from) {
  let all = 0;
  for (let got = 1; got > 0 && all < into.length; all += got) got = readSync(fd, into, all, into.length - all, from + all);
  return all;
}
function hash({ job, fd, to, last }, stop) {
  const state = begun.get(job) ?? { hash: createHash('sha256'), at: 0 };
  begun.set(job, state);
  for (let got = 1; state.at < to && got > 0 && Atomics.load(stop, 0) === 0; state.at += got) {
    got = readSync(fd, piece, 0, Math.min(piece.length, to - state.at), state.at);
    state.hash.update(piece.subarray(0, got));
  }
  return last ? state.hash.digest('hex') : undefined;
}
function compare({ fd, spans }, stop) {
  for (let n = 0; n < spans.length; n += 4) {
    const [other, from, at, length] = spans.subarray(n, n + 4);
    for (let done = 0; done < length; done += mine.length) {
      if (Atomics.load(stop, 0) !== 0) return 'stopped';
      const wanted = Math.min(mine.length, length - done);
      const [a, b] = [mine.subarray(0, wanted), theirs.subarray(0, wanted)];
      if (fill(fd, a, at + done) !== wanted || fill(other, b, from + done) !== wanted || !a.equals(b)) return String(at + done);
    }
  }
  return 'same';
}
parentPort.on('message', (order) => {
  const { job, stop } = order;
  try {
    const answer = order.spans === undefined ? hash(order, stop) : compare(order, stop);
    if (answer === undefined) return;
    begun.delete(job);
    parentPort.postMessage({ job, answer });
  } catch (error) {
    begun.delete(job);
    parentPort.postMessage({ job, answer: '', error: String(error) });
  }
});
`;

interface Answer {
  readonly job: number;
  readonly answer: string;
  readonly error?: string;
}

interface Waiting {
  readonly thread: number;
  readonly done: (answer: string) => void;
  readonly failed: (error: Error) => void;
}

/** Bytes of one open file that must equal bytes of another. */
export interface EqualSpan {
  /** The other file. */
  readonly fd: number;
  readonly from: number;
  /** Where they stand in the file that is compared. */
  readonly at: number;
  readonly length: number;
}

/** A hash in the making: `upTo` may be called as the file grows, `end` once. */
export interface GrowingHash {
  upTo(bytes: number): void;
  end(bytes: number): Promise<string>;
}

const threads: (Worker | undefined)[] = [undefined, undefined];
const waiting = new Map<number, Waiting>();
let jobs = 0;
/** In MB. A thread holds one piece of a file, and that lies outside its heap. */
const small = { maxYoungGenerationSizeMb: 2, maxOldGenerationSizeMb: 32 };

/** Two threads per process, started when first needed; they never keep the process alive while they are idle. */
function hashThread(at: number): Worker {
  const running = threads[at];
  if (running !== undefined) return running;
  const made = new Worker(program, { eval: true, execArgv: [], resourceLimits: small });
  made.unref();
  made.on('message', ({ job, answer, error }: Answer) => {
    const who = waiting.get(job);
    waiting.delete(job);
    if (!isAwaited(at)) made.unref();
    if (error === undefined) who?.done(answer);
    else who?.failed(new LotfileError('disk', 'A file could not be read to its end.', { cause: error }));
  });
  made.on('error', (cause) => {
    threads[at] = undefined;
    for (const [job, who] of waiting) {
      if (who.thread !== at) continue;
      waiting.delete(job);
      who.failed(LotfileError.from(cause));
    }
  });
  threads[at] = made;
  return made;
}

function isAwaited(thread: number): boolean {
  return [...waiting.values()].some((who) => who.thread === thread);
}

/** Hashes and comparisons of open files, worked out on a second core while something else is done with them. */
export class HashAside {
  readonly #stop = new Int32Array(new SharedArrayBuffer(4));
  readonly #running: Promise<unknown>[] = [];
  readonly #used = new Set<number>();

  /** SHA-256 of a whole open file, in hex. @throws LotfileError `disk` */
  whole(fd: number): Promise<string> {
    return this.#begin(fd, 0).end(fstatSync(fd).size);
  }

  /** The hash of a file that is still being written; it doesn't wait for whole files asked for before. */
  growing(fd: number): GrowingHash {
    return this.#begin(fd, 1);
  }

  /**
   * Compares places of an open file with the places they were copied from.
   * @returns offset in the file of the first piece that differs; undefined when all agree. @throws LotfileError `disk`
   */
  async compare(fd: number, spans: readonly EqualSpan[]): Promise<number | undefined> {
    const numbers = new Float64Array(spans.length * 4);
    for (const [n, span] of spans.entries()) numbers.set([span.fd, span.from, span.at, span.length], n * 4);
    const answer = await this.#ask(1, { fd, spans: numbers });
    if (answer === 'same') return undefined;
    if (answer === 'stopped') throw new LotfileError('stopped', 'Comparing files was given up.');
    return Number(answer);
  }

  /** Gives up what is still running. Only after this may the descriptors be closed. */
  async end(): Promise<void> {
    Atomics.store(this.#stop, 0, 1);
    // An empty job behind all others: when it is answered, everything asked for before it has been left alone.
    const behind = [...this.#used].map((thread) => this.#begin(-1, thread).end(0));
    await Promise.all([...this.#running, ...behind]);
  }

  #begin(fd: number, thread: number): GrowingHash {
    jobs += 1;
    const job = jobs;
    const worker = hashThread(thread);
    this.#used.add(thread);
    return {
      upTo: (to) => worker.postMessage({ job, fd, to, last: false, stop: this.#stop }),
      end: (to) => {
        if (threads[thread] !== worker) return Promise.reject(new LotfileError('internal', 'The hashing thread died.'));
        return this.#post(worker, { job, thread, order: { fd, to, last: true } });
      },
    };
  }

  #ask(thread: number, order: object): Promise<string> {
    jobs += 1;
    const worker = hashThread(thread);
    this.#used.add(thread);
    return this.#post(worker, { job: jobs, thread, order });
  }

  #post(
    worker: Worker,
    { job, thread, order }: { readonly job: number; readonly thread: number; readonly order: object },
  ): Promise<string> {
    const answer = new Promise<string>((done, failed) => waiting.set(job, { thread, done, failed }));
    worker.ref();
    worker.postMessage({ ...order, job, stop: this.#stop });
    this.#running.push(answer.catch(() => undefined));
    return answer;
  }
}
