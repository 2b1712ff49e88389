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
  readonly answer?: PieceAnswer | undefined;
  readonly error?: string | undefined;
}

interface PieceAnswer {
  readonly sha256?: string | undefined;
  readonly differsAt?: number | undefined;
}

/** A file to hash whole, or bytes of it to compare with others. */
type Piece =
  | { readonly fd: number; readonly bytes: number }
  | { readonly fd: number; readonly spans: Float64Array<ArrayBuffer> };

/** What a thread is asked to do; more stands in it than the job's number. */
interface Order {
  readonly job: number;
  readonly [more: string]: unknown;
}

/** A list both threads may take pieces from; each piece is a job of its own, `job` that of the first. */
interface PieceList extends Order {
  readonly work: 'pieces';
  readonly list: readonly Piece[];
}

interface Waiting {
  readonly threads: Set<Worker>;
  readonly done: (answer: PieceAnswer | undefined) => void;
  readonly failed: (error: Error) => void;
}

const threads: (Worker | undefined)[] = [undefined, undefined];
/** The first takes lists from the beginning; the second writes, and helps with the lists when all is written. */
const lister = 0;
const writer = 1;
const waiting = new Map<number, Waiting>();
/** Lists that the second thread doesn't know of yet, each with the threads its owner waits for in the end. */
const lists = new Map<PieceList, Set<number>>();
let jobs = 0;
/** In MB. A thread holds two pieces of files, and they lie outside its heap. */
const small = { maxYoungGenerationSizeMb: 2, maxOldGenerationSizeMb: 32 };
const nothing = new Uint8Array(0);
/** At most so much is compared in one piece: little enough that both threads come to their end together. */
const comparedAtOnce = 4 * 1024 * 1024;

/** Two threads per process, started when first needed; they never keep the process alive while they are idle. */
function startThread(at: number): Worker {
  const running = threads[at];
  if (running !== undefined) return running;
  const made = new Worker(asideProgram, { eval: true, execArgv: [], resourceLimits: small });
  made.unref();
  made.on('message', ({ job, answer, error }: Answer) => {
    const who = waiting.get(job);
    waiting.delete(job);
    for (const thread of who?.threads ?? []) if (!isAwaited(thread)) thread.unref();
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
    if (!who.threads.has(thread)) continue;
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
  return [...waiting.values()].some((who) => who.threads.has(thread));
}

/** Ends both threads at once, whatever they are doing; the next order starts new ones. */
export async function endThreads(): Promise<void> {
  await Promise.all(threads.map((thread) => thread?.terminate()));
}

/** Starts both threads while something else is done. */
export function warmAside(): void {
  for (const at of threads.keys()) startThread(at);
}

/** A long span as several, none longer than a piece. */
function cut({ fd, from, at, length }: EqualSpan): readonly EqualSpan[] {
  const parts = Math.max(1, Math.ceil(length / comparedAtOnce));
  return Array.from({ length: parts }, (_, n) => {
    const done = n * comparedAtOnce;
    return { fd, from: from + done, at: at + done, length: Math.min(comparedAtOnce, length - done) };
  });
}

/** Where the same bytes stand, in pieces of a few megabytes, as numbers that are quickly handed over. */
function inPieces(fd: number, spans: readonly EqualSpan[]): readonly Piece[] {
  const pieces: number[][] = [];
  let bytes = comparedAtOnce;
  for (const { fd: source, from, at, length } of spans.flatMap(cut)) {
    if (bytes + length > comparedAtOnce) {
      pieces.push([]);
      bytes = 0;
    }
    pieces.at(-1)?.push(source, from, at, length);
    bytes += length;
  }
  return pieces.map((numbers) => ({ fd, spans: Float64Array.from(numbers) }));
}

/** Long work on the bytes of open files, done on other cores while something else is done here. */
export class Aside {
  readonly #stop = new Int32Array(new SharedArrayBuffer(4));
  readonly #running: Promise<unknown>[] = [];
  readonly #used = new Set<number>();

  /** SHA-256 of whole open files, in hex, in their order. Each rejects with LotfileError `disk`. */
  wholes(fds: readonly number[]): readonly Promise<string>[] {
    const answers = this.#hand(
      lister,
      fds.map((fd) => ({ fd, bytes: fstatSync(fd).size })),
    );
    return answers.map(async (answer) => hashIn(await answer));
  }

  /** SHA-256 of a whole open file, in hex. @throws LotfileError `disk` */
  async whole(fd: number): Promise<string> {
    return (await Promise.all(this.wholes([fd])))[0] ?? '';
  }

  /**
   * Reads a file that was made: it is hashed, and what was copied into it compared with where it came from. It doesn't
   * wait for whole files asked for before: from now on both threads see to whatever is asked for.
   * @param spans in the order they stand in the file. @throws LotfileError `disk`
   */
  async look(fd: number, bytes: number, spans: readonly EqualSpan[]): Promise<SeenBytes> {
    const hash = this.#hand(writer, [{ fd, bytes }]);
    const compared = this.#hand(lister, inPieces(fd, spans));
    this.#helpOut();
    const [seen, ...found] = await Promise.all([...hash, ...compared]);
    const differing = found.flatMap((one) => (one?.differsAt === undefined ? [] : [one.differsAt]));
    const differsAt = differing.length === 0 ? undefined : Math.min(...differing);
    return { sha256: hashIn(seen), differsAt };
  }

  /** Writes an open file. */
  writer(fd: number): AsideWriter {
    const writing = { fd, stop: this.#stop, work: 'write', job: number() };
    const hand = this.#thread(writer);
    return {
      write: (batch) => hand.postMessage({ ...writing, ...batch, last: false }),
      end: async () => {
        // Another thread knows nothing of the batches before.
        if (threads[writer] !== hand) throw brokeOff();
        await this.#ask(writer, { ...writing, at: 0, text: nothing, parts: new Float64Array(0) });
      },
    };
  }

  /** Gives up what is still running. Only after this may the descriptors be closed. */
  async end(): Promise<void> {
    Atomics.store(this.#stop, 0, 1);
    // An empty job behind all others: when it is answered, everything asked for before it has been left alone.
    const behind = [...this.#used].map((at) => this.#ask(at, { job: number(), work: 'nothing' }));
    await Promise.allSettled([...this.#running, ...behind]);
  }

  #thread(at: number): Worker {
    this.#used.add(at);
    return startThread(at);
  }

  /** Hands a list of pieces to one thread; what the first doesn't get to, the second may help with later. */
  #hand(at: number, list: readonly Piece[]): readonly Promise<PieceAnswer | undefined>[] {
    if (list.length === 0) return [];
    const taken = new Int32Array(new SharedArrayBuffer(4));
    const order: PieceList = { job: number(list.length), work: 'pieces', list, taken, stop: this.#stop };
    const answers = list.map((_, n) => this.#await(order.job + n, at));
    startThread(at).postMessage(order);
    if (at === lister) lists.set(order, this.#used);
    Promise.allSettled(answers).then(() => lists.delete(order));
    return answers;
  }

  #helpOut(): void {
    for (const [order, used] of lists) {
      const thread = startThread(writer);
      used.add(writer);
      const open = order.list.flatMap((_, n) => waiting.get(order.job + n) ?? []);
      for (const who of open) who.threads.add(thread);
      if (open.length > 0) thread.ref();
      thread.postMessage(order);
    }
    lists.clear();
  }

  #ask(at: number, order: Order): Promise<PieceAnswer | undefined> {
    const answer = this.#await(order.job, at);
    startThread(at).postMessage({ ...order, last: true });
    return answer;
  }

  #await(job: number, at: number): Promise<PieceAnswer | undefined> {
    const thread = this.#thread(at);
    const answer = new Promise<PieceAnswer | undefined>((done, failed) =>
      waiting.set(job, { threads: new Set([thread]), done, failed }),
    );
    thread.ref();
    this.#running.push(answer.catch(() => undefined));
    return answer;
  }
}

/** The first of so many numbers that no job has had. */
function number(count = 1): number {
  jobs += count;
  return jobs - count + 1;
}

function hashIn(answer: PieceAnswer | undefined): string {
  if (answer?.sha256 === undefined) throw new LotfileError('internal', 'A look at a file found nothing.');
  return answer.sha256;
}
