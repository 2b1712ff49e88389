/**
 * The worker program: files in, files out, small messages. It knows no lot and no database, and is ended without
 * regret. Started by process-port.ts over an IPC channel; `--memory=<MB>` is its limit.
 */
import { keepFile } from '../intake/keep-file.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import { type FromWorker, type ToWorker, toWorker } from './messages.ts';
import { startWatchdog } from './watchdog.ts';

function send(message: FromWorker): Promise<void> {
  return new Promise((resolve, reject) => {
    if (process.send === undefined) {
      reject(new Error('This program is started by Lotfile, not by hand.'));
      return;
    }
    process.send(message, (problem: Error | null) => (problem === null ? resolve() : reject(problem)));
  });
}

async function run({ id, job }: ToWorker): Promise<void> {
  try {
    const result = await keepFile(job, (done, of) => send({ say: 'page', id, done, of }));
    await send({ say: 'done', id, result: result, memory: process.memoryUsage.rss() });
  } catch (problem) {
    const error = LotfileError.from(problem).toJSON();
    await send({ say: 'failed', id, error, memory: process.memoryUsage.rss() });
  }
}

const limit = Number(process.argv.find((word) => word.startsWith('--memory='))?.slice('--memory='.length));
startWatchdog((Number.isFinite(limit) && limit > 0 ? limit : 2048) * 1024 * 1024);

process.on('message', (message) => {
  const order = toWorker.safeParse(message);
  if (!order.success) process.exit(2);
  run(order.data).catch(() => process.exit(2));
});
process.on('disconnect', () => process.exit(0));
await send({ say: 'ready' });
