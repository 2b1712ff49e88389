import { writeSync } from 'node:fs';
import { isMainThread, Worker, workerData } from 'node:worker_threads';

/** Written to the worker's stderr before it ends itself, for whoever started it. */
export const outOfMemory = 'lotfile-worker: memory limit';

const interval = 200;

/**
 * Watches this process from a thread of its own, since the main one is deep in a decoder and can't look up: past
 * `limitBytes` of resident memory (WebAssembly and picture memory count, the engine's own limit misses them), or
 * when the program that started it is gone, the process ends.
 */
export function startWatchdog(limitBytes: number): void {
  const thread = new Worker(new URL(import.meta.url), { workerData: { limitBytes, parent: process.ppid } });
  thread.unref();
}

function watch(limitBytes: number, parent: number): void {
  setInterval(() => {
    if (process.memoryUsage.rss() > limitBytes) {
      writeSync(2, `${outOfMemory}\n`);
      process.kill(process.pid, 'SIGKILL');
    }
    if (process.ppid !== parent) process.kill(process.pid, 'SIGKILL');
  }, interval);
}

const given: unknown = workerData;
if (!isMainThread && typeof given === 'object' && given !== null && 'limitBytes' in given && 'parent' in given) {
  watch(Number(given.limitBytes), Number(given.parent));
}
