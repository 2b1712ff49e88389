import { fstatSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { LotfileError } from '../../vocabulary/errors.ts';
import { asideProgram } from './aside-program.ts';

/** Bytes of one open file that must equal bytes of another. */
export interface EqualSpan {
  /** The file they come from. */
  readonly fd: number;
  readonly from: number;
  /** Where they stand in the file that was made. */
  readonly at: number;
  readonly length: number;
}

/** What a look at a whole file found. */
export interface SeenBytes {
  readonly sha256: string;
  /** Offset of the first piece that isn't what it was copied from; undefined when all are. */
  readonly differsAt?: number | undefined;
}

/** The next bytes of a file in the making. */
export interface Batch {
  readonly at: number;
  /** All texts of the batch, one after the other. */
  readonly text: Uint8Array;
  /** Three numbers for each part: open file (-1 for the next of the text), where it begins there, length. */
  readonly parts: Float64Array;
}

/** A file written on the second core, batch by batch; `end` once, after it no batch. */
export interface AsideWriter {
  write(batch: Batch): void;
  /** Waits until all batches stand in the file. @throws LotfileError `disk` when one couldn't be written or read. */
  end(): Promise<void>;
}

interface Answer {
  readonly job: number;
  readonly answer?: SeenBytes | undefined;
  readonly error?: string | undefined;
}

/** What a thread is asked to do; more stands in it than the job's number. */
interface Order {
  readonly job: number;
  readonly [more: string]: unknown;
}

interface Waiting {
  readonly thread: Worker;
  readonly done: (answer: SeenBytes | undefined) => void;
  readonly failed: (error: Error) => void;
}

const threads: (Worker | undefined)[] = [undefined, undefined];
const waiting = new Map<number, Waiting>();
let jobs = 0;
/** In MB. A thread holds two pieces of files, and they lie outside its heap. */
const small = { maxYoungGenerationSizeMb: 2, maxOldGenerationSizeMb: 32 };
const nothing = new Uint8Array(0);

/** Two threads per process, started when first needed; they never keep the process alive while they are idle. */
function startThread(at: number): Worker {
  const running = threads[at];
  if (running !== undefined) return running;
  const made = new Worker(asideProgram, { eval: true, execArgv: [], resourceLimits: small });
  made.unref();
  made.on('message', ({ job, answer, error }: Answer) => {
    const who = waiting.get(job);
    waiting.delete(job);
    if (!isAwaited(made)) made.unref();
    if (error === undefined) who?.done(answer);
    else who?.failed(new LotfileError('disk', 'A file could not be read or written to its end.', { cause: error }));
  });
  made.on('error', (cause) => fell(at, made, cause));
  made.on('exit', () => fell(at, made));
  threads[at] = made;
  return made;
}

/** A thread ended by itself: whoever waits for it is told, and the next order starts another one. */
function fell(at: number, thread: Worker, cause?: unknown): void {
  if (threads[at] === thread) threads[at] = undefined;
  for (const [job, who] of waiting) {
    if (who.thread !== thread) continue;
    waiting.delete(job);
    who.failed(brokeOff(cause));
  }
}

function brokeOff(cause?: unknown): LotfileError {
  return new LotfileError('internal', 'The part of the program that reads and writes files broke off.', {
    next: 'Nothing was given a name. Close other programs if the computer is short of memory, and make it again.',
    cause,
  });
}

function isAwaited(thread: Worker): boolean {
  return [...waiting.values()].some((who) => who.thread === thread);
}

/** Ends both threads at once, whatever they are doing; the next order starts new ones. */
export async function endThreads(): Promise<void> {
  await Promise.all(threads.map((thread) => thread?.terminate()));
}

/** Starts both threads while something else is done. */
export function warmAside(): void {
  for (const at of threads.keys()) startThread(at);
}

/** Where the same bytes stand, as numbers that are quickly handed over. */
function inNumbers(spans: readonly EqualSpan[]): Float64Array {
  const numbers = new Float64Array(spans.length * 4);
  for (const [n, { fd, from, at, length }] of spans.entries()) numbers.set([fd, from, at, length], n * 4);
  return numbers;
}

/** Long work on the bytes of open files, done on other cores while something else is done here. */
export class Aside {
  readonly #stop = new Int32Array(new SharedArrayBuffer(4));
  readonly #running: Promise<unknown>[] = [];
  readonly #used = new Set<number>();

  /** SHA-256 of a whole open file, in hex. @throws LotfileError `disk` */
  async whole(fd: number): Promise<string> {
    return (await this.#look(0, { fd, bytes: fstatSync(fd).size, spans: new Float64Array(0) })).sha256;
  }

  /**
   * One pass over a file that was made: it is hashed, and what was copied into it compared with where it came from.
   * It doesn't wait for whole files asked for before.
   * @param spans in the order they stand in the file. @throws LotfileError `disk`
   */
  look(fd: number, bytes: number, spans: readonly EqualSpan[]): Promise<SeenBytes> {
    return this.#look(1, { fd, bytes, spans: inNumbers(spans) });
  }

  /** Writes an open file. */
  writer(fd: number): AsideWriter {
    const writing = { fd, stop: this.#stop, work: 'write', job: this.#number() };
    const hand = this.#thread(1);
    return {
      write: (batch) => hand.postMessage({ ...writing, ...batch, last: false }),
      end: async () => {
        // Another thread knows nothing of the batches before.
        if (threads[1] !== hand) throw brokeOff();
        await this.#ask(1, { ...writing, at: 0, text: nothing, parts: new Float64Array(0) });
      },
    };
  }

  /** Gives up what is still running. Only after this may the descriptors be closed. */
  async end(): Promise<void> {
    Atomics.store(this.#stop, 0, 1);
    // An empty job behind all others: when it is answered, everything asked for before it has been left alone.
    const behind = [...this.#used].map((at) => this.#look(at, { fd: -1, bytes: 0, spans: new Float64Array(0) }));
    await Promise.allSettled([...this.#running, ...behind]);
  }

  #thread(at: number): Worker {
    this.#used.add(at);
    return startThread(at);
  }

  #number(): number {
    jobs += 1;
    return jobs;
  }

  async #look(at: number, order: object): Promise<SeenBytes> {
    const seen = await this.#ask(at, { ...order, work: 'look', job: this.#number(), stop: this.#stop });
    if (seen === undefined) throw new LotfileError('internal', 'A look at a file found nothing.');
    return seen;
  }

  #ask(at: number, order: Order): Promise<SeenBytes | undefined> {
    const thread = this.#thread(at);
    const answer = new Promise<SeenBytes | undefined>((done, failed) =>
      waiting.set(order.job, { thread, done, failed }),
    );
    thread.ref();
    thread.postMessage({ ...order, last: true });
    this.#running.push(answer.catch(() => undefined));
    return answer;
  }
}
