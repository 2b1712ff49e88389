import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openDesk } from '../../core/desk/desk.ts';
import type { RequestArgument, RequestName } from '../../core/desk/door.ts';
import { openLot } from '../../core/store/index.ts';
import type { Day } from '../../core/vocabulary/days.ts';
import { makeLargeLot } from './large-lot.ts';
import { queries } from './words.ts';

/**
 * `npm run growth`: a lot of 5,000 papers, 10,000 records and 50,000 pages; every screen's request right after a change
 * and asked again, and the search. Milliseconds of this process's own work, so that a busy machine does not count.
 * `npm run growth -- FOLDER` keeps the lot there, or measures the one that lies there already.
 */
const today: Day = '2026-04-14';
const size = { papers: 5000, records: 10_000, pages: 50_000, today };
/** Milliseconds a screen may wait. */
const most = 100;
const mostSearchP95 = 20;

type Ask = { [N in RequestName]: readonly [N, RequestArgument<N>] }[RequestName];

const asks: readonly Ask[] = [
  ['today', {}],
  ['way', {}],
  ['errand', { errand: 'permit-apply' }],
  ['papers', {}],
  ['papers', { wanted: true }],
  ['pages', { edition: 'P-0' }],
  ['with-offices', {}],
  ['inspections', {}],
  ['read-lot', {}],
  ['table', {}],
  ['amendable', { errand: 'permit-apply' }],
  ['practice', {}],
  ['practice-words', {}],
  ['find', { text: 'septic permit' }],
  ['history', { limit: 100 }],
  ['packets', {}],
  ['handovers', {}],
  ['trades', {}],
  ['costs', {}],
  ['records', {}],
  ['plan', { errand: 'permit-apply' }],
];

async function worked(work: () => unknown): Promise<number> {
  const begun = process.cpuUsage();
  await work();
  const { user, system } = process.cpuUsage(begun);
  return (user + system) / 1000;
}

function middle(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
}

async function screens(folder: string): Promise<number> {
  let slow = 0;
  await using desk = openDesk({ program: 'bench', today: () => today });
  const opened = await worked(() => desk.ask('open-lot', { folder: desk.tickets.offer(folder) }));
  const { lot } = await desk.ask('open-lot', { folder: desk.tickets.offer(folder) });
  process.stdout.write(
    `opening, with the day's copy of the database if it is still to be made: ${opened.toFixed(0)} ms\n`,
  );
  for (const [name, argument] of asks) {
    const after: number[] = [];
    const again: number[] = [];
    for (let n = 0; n < 5; n += 1) {
      await desk.ask('answer', { question: 'lender', answer: n % 2 === 0 ? 'yes' : 'no' }, { lot });
      after.push(await worked(() => desk.askUntyped(name, argument, { lot })));
      again.push(await worked(() => desk.askUntyped(name, argument, { lot })));
    }
    const bytes = JSON.stringify(await desk.askUntyped(name, argument, { lot })).length;
    const ms = middle(after);
    if (ms > most) slow += 1;
    const said = `${name} ${JSON.stringify(argument)}`.padEnd(44);
    process.stdout.write(
      `${said} after a change ${ms.toFixed(1)} ms, again ${middle(again).toFixed(1)} ms, ${(bytes / 1000).toFixed(0)} KB${ms > most ? '  SLOW' : ''}\n`,
    );
  }
  return slow;
}

async function searching(folder: string): Promise<number> {
  using lot = openLot(folder, { holder: { program: 'bench', host: 'bench', pid: process.pid }, readOnly: true });
  const asked = queries();
  for (const query of asked.slice(0, 10)) lot.search(query);
  const times: number[] = [];
  for (const query of asked) times.push(await worked(() => lot.search(query)));
  const sorted = times.toSorted((a, b) => a - b);
  const p95 = sorted[Math.floor(sorted.length * 0.95)] ?? Number.NaN;
  process.stdout.write(
    `searching ${size.pages} pages, ${asked.length} questions: middle ${middle(times).toFixed(1)} ms, p95 ${p95.toFixed(1)} ms, worst ${(sorted.at(-1) ?? 0).toFixed(1)} ms\n`,
  );
  return p95 > mostSearchP95 ? 1 : 0;
}

const given = process.argv[2];
const root = given ?? mkdtempSync(join(tmpdir(), 'lotfile-growth-'));
const folder = join(root, 'lot');
try {
  if (!existsSync(folder)) {
    const begun = performance.now();
    await makeLargeLot(folder, size);
    process.stdout.write(`made in ${((performance.now() - begun) / 1000).toFixed(0)} s\n`);
  }
  const slow = (await screens(folder)) + (await searching(folder));
  process.stdout.write(
    slow === 0 ? 'All within their limits.\n' : `${slow} over their limits (${most} ms, search ${mostSearchP95} ms).\n`,
  );
  process.exitCode = slow === 0 ? 0 : 1;
} finally {
  if (given === undefined) rmSync(root, { recursive: true, force: true });
}
