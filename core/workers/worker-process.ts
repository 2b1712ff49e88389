import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { type FromWorker, fromWorker, type ToWorker } from './messages.ts';

export interface WorkerSettings {
  readonly program: string | URL;
  readonly memoryMB: number;
}

/** How a worker's life ended, as far as the other side can tell. */
export interface WorkerEnd {
  /** It had come up and taken orders; otherwise the program itself is at fault, not the file. */
  readonly wasReady: boolean;
  /** The last words on its stderr. */
  readonly lastWords: string;
}

/** JavaScript's own heap; pixels and WebAssembly live outside of it, under the watchdog. */
const heapShare = 0.5;

/** One worker process: started with the node that runs us, spoken to over its IPC channel. */
export class WorkerProcess {
  readonly #child: ChildProcess;
  readonly #ended: Promise<WorkerEnd>;
  #ready = false;
  #lastWords = '';
  #hear: (message: FromWorker) => void = () => {};
  jobs = 0;
  /** Resident bytes after the last job. */
  memory = 0;

  constructor(settings: WorkerSettings) {
    const { program, memoryMB } = settings;
    const path = program instanceof URL ? fileURLToPath(program) : program;
    this.#child = fork(path, [`--memory=${memoryMB}`], {
      execArgv: [`--max-old-space-size=${Math.round(memoryMB * heapShare)}`],
      stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
    });
    this.#ended = new Promise((resolve) => {
      const end = () => resolve({ wasReady: this.#ready, lastWords: this.#lastWords });
      this.#child.once('exit', end);
      this.#child.once('error', (problem) => {
        this.#lastWords = problem.message;
        end();
      });
    });
    this.#child.on('message', (raw) => this.#take(raw));
    this.#child.stderr?.on('data', (words: Buffer) => {
      this.#lastWords = `${this.#lastWords}${words.toString()}`.slice(-2000);
    });
  }

  /** Settles when the process is gone. */
  get ended(): Promise<WorkerEnd> {
    return this.#ended;
  }

  get alive(): boolean {
    return this.#child.exitCode === null && this.#child.signalCode === null && this.#child.connected;
  }

  #take(raw: unknown): void {
    const message = fromWorker.safeParse(raw);
    if (!message.success) this.kill();
    else if (message.data.say === 'ready') this.#ready = true;
    else this.#hear(message.data);
  }

  /** Gives it a job; what it says about it goes to `hear`. */
  order(order: ToWorker, hear: (message: FromWorker) => void): void {
    this.#hear = hear;
    this.#hold(true);
    this.jobs += 1;
    this.#child.send(order, () => {
      // A channel that broke shows as the end of the process, which whoever waits for the job is told.
    });
  }

  /** It has nothing to do: it may not keep its starter from ending. */
  rest(): void {
    this.#hear = () => {};
    this.#hold(false);
  }

  #hold(held: boolean): void {
    const { stderr } = this.#child;
    const pipe: unknown = stderr;
    if (held) {
      this.#child.ref();
      this.#child.channel?.ref();
    } else {
      this.#child.unref();
      this.#child.channel?.unref();
    }
    if (typeof pipe === 'object' && pipe !== null && 'unref' in pipe && typeof pipe.unref === 'function') pipe.unref();
  }

  /** Ends it at once, whatever it is doing; its end is worth waiting for. */
  kill(): void {
    this.#hold(true);
    this.#child.kill('SIGKILL');
  }
}
