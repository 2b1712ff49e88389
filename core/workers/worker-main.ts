/**
 * The worker program: files in, files out, small messages. It knows no lot and no database, and is ended without
 * regret. Started by process-port.ts over an IPC channel; `--memory=<MB>` is its limit.
 */
import { constants, setPriority } from 'node:os';
import { keepFile } from '../intake/keep-file.ts';
import { unpackFile } from '../intake/mail/unpack-file.ts';
import { sharedReader } from '../intake/ocr/letter-reader.ts';
import { readPages } from '../intake/ocr/read-pages.ts';
import { suggest, writeOut } from '../intake/ocr/write-out.ts';
import { takeGlimpse } from '../intake/pictures/glimpse.ts';
import { slimFile } from '../intake/slim/slim-file.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import { type FromWorker, type ToWorker, toWorker } from './messages.ts';
import { startWatchdog } from './watchdog.ts';

interface Channel {
  send(message: FromWorker): Promise<void>;
  onOrder(take: (message: unknown) => void): void;
}

/** Started by the desktop program there is a port to the parent, which isn't in node's own types. */
function parentPort(): { postMessage(message: object): void; on(event: 'message', take: Take): void } | undefined {
  return Reflect.get(process, 'parentPort') ?? undefined;
}

type Take = (event: { readonly data: unknown }) => void;

function openChannel(): Channel {
  const port = parentPort();
  if (port !== undefined) {
    return {
      send: async (message) => port.postMessage(message),
      onOrder: (take) => port.on('message', ({ data }) => take(data)),
    };
  }
  return {
    send: (message) =>
      new Promise((resolve, reject) => {
        if (process.send === undefined) reject(new Error('This program is started by Lotfile, not by hand.'));
        else process.send(message, (problem: Error | null) => (problem === null ? resolve() : reject(problem)));
      }),
    onOrder: (take) => void process.on('message', take),
  };
}

const channel = openChannel();

type Answer = Extract<FromWorker, { readonly result: unknown }>;
type Bare<T> = T extends unknown ? Omit<T, 'id' | 'memory'> : never;
type OnPage = (done: number, of: number) => Promise<void>;

async function work(job: ToWorker['job'], onPage: OnPage): Promise<Bare<Answer>> {
  switch (job.job) {
    case 'keep':
      return { say: 'done', result: await keepFile(job, onPage) };
    case 'read':
      return { say: 'read', result: { pages: await readPages(job.input, job.name, { onPage, reader: sharedReader }) } };
    case 'write out':
      return { say: 'written', result: await writeOut(job, { onPage, reader: sharedReader }) };
    case 'suggest':
      return { say: 'suggested', result: suggest(job) };
    case 'glimpse':
      return { say: 'glimpsed', result: await takeGlimpse(job) };
    case 'unpack':
      return { say: 'unpacked', result: await unpackFile(job) };
    case 'slim':
      return { say: 'slimmed', result: await slimFile(job, onPage) };
    case 'read form':
      return { say: 'form read', result: await (await import('../forms/file/read-blank.ts')).readBlank(job) };
    case 'fill form':
      // Fonts and their engine are loaded by the few workers that fill forms.
      return { say: 'form filled', result: await (await import('../forms/file/fill-blank.ts')).fillBlank(job) };
  }
}

async function run({ id, job }: ToWorker): Promise<void> {
  try {
    const answer = await work(job, (done, of) => channel.send({ say: 'page', id, done, of }));
    await channel.send({ ...answer, id, memory: process.memoryUsage.rss() });
  } catch (problem) {
    const error = LotfileError.from(problem).toJSON();
    await channel.send({ say: 'failed', id, error, memory: process.memoryUsage.rss() });
  }
}

const limit = Number(process.argv.find((word) => word.startsWith('--memory='))?.slice('--memory='.length));
startWatchdog((Number.isFinite(limit) && limit > 0 ? limit : 2048) * 1024 * 1024);

if (process.argv.includes('--patient')) setPriority(constants.priority.PRIORITY_LOW);

channel.onOrder((message) => {
  const order = toWorker.safeParse(message);
  if (!order.success) process.exit(2);
  run(order.data).catch(() => process.exit(2));
});
// A library's promise that nobody waits for may fail after its file is done with (pdf.js on damaged tables; a find of the
// fuzz). Whoever waits for a job hears of its own failure; one that is heard of by nobody ends by its time limit.
process.on('unhandledRejection', (problem) => process.stderr.write(`Left behind: ${String(problem)}\n`));
process.on('disconnect', () => process.exit(0));
await channel.send({ say: 'ready' });
