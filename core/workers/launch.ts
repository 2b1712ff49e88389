import { fork } from 'node:child_process';
import { compiledFolder } from './compiled-folder.ts';

/** How a worker program is started; node's own words for both. */
export interface LaunchSettings {
  readonly program: string;
  readonly words: readonly string[];
  readonly nodeWords: readonly string[];
}

/** A started worker process, as little of it as we need. */
export interface WorkerChild {
  readonly alive: boolean;
  send(message: object): void;
  onMessage(hear: (raw: unknown) => void): void;
  /** The last thing heard of it; `words` where it never came up. */
  onEnd(hear: (words?: string) => void): void;
  /** What it writes to stderr. */
  onWords(hear: (words: string) => void): void;
  /** Whether it may keep its starter from ending. */
  hold(held: boolean): void;
  /** Ends it at once, whatever it is doing. */
  kill(): void;
}

/** The desktop program starts workers its own way: its fuses forbid running it as node. */
export type LaunchWorker = (settings: LaunchSettings) => WorkerChild;

/** Starts a worker with the node that runs us and speaks to it over its IPC channel. */
export const forkWorker: LaunchWorker = ({ program, words, nodeWords }) => {
  // With sources that were compiled before, a worker is ready in half the time.
  const child = fork(program, [...words], {
    execArgv: [...nodeWords],
    stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
    env: { ...process.env, NODE_COMPILE_CACHE: compiledFolder() },
  });
  const holdPipe = (): void => {
    const pipe: unknown = child.stderr;
    if (typeof pipe === 'object' && pipe !== null && 'unref' in pipe && typeof pipe.unref === 'function') pipe.unref();
  };
  return {
    get alive() {
      return child.exitCode === null && child.signalCode === null && child.connected;
    },
    send: (message) => {
      // A channel that broke shows as the end of the process, which whoever waits for the job is told.
      child.send(message, () => undefined);
    },
    onMessage: (hear) => void child.on('message', hear),
    onEnd: (hear) => {
      child.once('exit', () => hear());
      child.once('error', (problem) => hear(problem.message));
    },
    onWords: (hear) => void child.stderr?.on('data', (part: Buffer) => hear(part.toString())),
    hold: (held) => {
      if (held) {
        child.ref();
        child.channel?.ref();
      } else {
        child.unref();
        child.channel?.unref();
      }
      holdPipe();
    },
    kill: () => void child.kill('SIGKILL'),
  };
};
