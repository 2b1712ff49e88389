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
const begun = new Map();
parentPort.on('message', ({ job, fd, to, last, stop }) => {
  try {
    const state = begun.get(job) ?? { hash: createHash('sha256'), at: 0 };
    begun.set(job, state);
    for (let got = 1; state.at < to && got > 0 && Atomics.load(stop, 0) === 0; state.at += got) {
      got = readSync(fd, piece, 0, Math.min(piece.length, to - state.at), state.at);
      state.hash.update(piece.subarray(0, got));
    }
    if (!last) return;
    begun.delete(job);
    parentPort.postMessage({ job, sha256: state.hash.digest('hex') });
  } catch (error) {
    begun.delete(job);
    parentPort.postMessage({ job, sha256: '', error: String(error) });
  }
});
`;

interface Answer {
  readonly job: number;
  readonly sha256: string;
  readonly error?: string;
}

interface Waiting {
  readonly thread: number;
  readonly done: (sha256: string) => void;
  readonly failed: (error: Error) => void;
}

/** A hash in the making: `upTo` may be called as the file grows, `end` once. */
export interface GrowingHash {
  upTo(bytes: number): void;
  end(bytes: number): Promise<string>;
}

const threads: (Worker | undefined)[] = [undefined, undefined];
const waiting = new Map<number, Waiting>();
let jobs = 0;

/** Two threads per process, started when first needed; they never keep the process alive while they are idle. */
function hashThread(at: number): Worker {
  const running = threads[at];
  if (running !== undefined) return running;
  const made = new Worker(program, { eval: true, execArgv: [] });
  made.unref();
  made.on('message', ({ job, sha256, error }: Answer) => {
    const who = waiting.get(job);
    waiting.delete(job);
    if (!isAwaited(at)) made.unref();
    if (error === undefined) who?.done(sha256);
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

/** Hashes of open files, worked out on a second core while something else is done with them. */
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
    const post = (to: number, last: boolean): void => worker.postMessage({ job, fd, to, last, stop: this.#stop });
    return {
      upTo: (to) => post(to, false),
      end: (to) => {
        if (threads[thread] !== worker) return Promise.reject(new LotfileError('internal', 'The hashing thread died.'));
        const answer = new Promise<string>((done, failed) => waiting.set(job, { thread, done, failed }));
        worker.ref();
        post(to, true);
        this.#running.push(answer.catch(() => undefined));
        return answer;
      },
    };
  }
}
