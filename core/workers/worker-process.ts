import { fileURLToPath } from 'node:url';
import { forkWorker, type LaunchWorker, type WorkerChild } from './launch.ts';
import { type FromWorker, fromWorker, type ToWorker } from './messages.ts';

export interface WorkerSettings {
  readonly program: string | URL;
  readonly memoryMB: number;
  /** Runs at the lowest priority. */
  readonly patient?: boolean | undefined;
  /** How a process is started; node's own way unless said. */
  readonly launch?: LaunchWorker | undefined;
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

/** One worker process: started, spoken to, and ended without regret. */
export class WorkerProcess {
  readonly #child: WorkerChild;
  readonly #ended: Promise<WorkerEnd>;
  #ready = false;
  #lastWords = '';
  #hear: (message: FromWorker) => void = () => {};
  jobs = 0;
  /** Resident bytes after the last job. */
  memory = 0;

  constructor({ program, memoryMB, patient = false, launch = forkWorker }: WorkerSettings) {
    this.#child = launch({
      program: program instanceof URL ? fileURLToPath(program) : program,
      words: [`--memory=${memoryMB}`, ...(patient ? ['--patient'] : [])],
      nodeWords: [`--max-old-space-size=${Math.round(memoryMB * heapShare)}`],
    });
    this.#ended = new Promise((resolve) => {
      this.#child.onEnd((words) => {
        this.#lastWords = words ?? this.#lastWords;
        resolve({ wasReady: this.#ready, lastWords: this.#lastWords });
      });
    });
    this.#child.onMessage((raw) => this.#take(raw));
    this.#child.onWords((words) => {
      this.#lastWords = `${this.#lastWords}${words}`.slice(-2000);
    });
  }

  /** Settles when the process is gone. */
  get ended(): Promise<WorkerEnd> {
    return this.#ended;
  }

  get alive(): boolean {
    return this.#child.alive;
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
    this.#child.hold(true);
    this.jobs += 1;
    this.#child.send(order);
  }

  /** It has nothing to do: it may not keep its starter from ending. */
  rest(): void {
    this.#hear = () => {};
    this.#child.hold(false);
  }

  /** Ends it at once, whatever it is doing; its end is worth waiting for. */
  kill(): void {
    this.#child.hold(true);
    this.#child.kill();
  }
}
