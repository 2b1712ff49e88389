import { readdirSync, rmSync } from 'node:fs';
import { enableCompileCache } from 'node:module';
import { join } from 'node:path';
import { createInterface } from 'node:readline';

/**
 * Run as a process of its own, so that its peak memory is the assembling's alone: opens a kept lot; for each line on
 * its input it assembles all papers once and prints the milliseconds and the peak in MB so far. What was assembled is
 * removed before: the peers write over their last output too, and new disk blocks cost more than ones just freed.
 */
enableCompileCache();
const { openDesk } = await import('../../core/desk/desk.ts');
const [folder = ''] = process.argv.slice(2);
await using desk = openDesk({ program: 'bench', today: () => '2026-04-14' });
const { lot } = await desk.ask('open-lot', { folder: desk.tickets.offer(folder) });
const { papers } = await desk.ask('papers', {}, { lot });
const editions = papers.flatMap((paper) => paper.editions.map(({ edition }) => edition));
// The program's start is not assembling: fonts, drawing and reading modules are loaded by a plan and a small packet.
await desk.ask('assemble', { papers: editions.slice(0, 1), title: 'One', recipient: 'bench' }, { lot });

async function assembleOnce(): Promise<string> {
  const begun = performance.now();
  const answer = await desk.ask('assemble', { papers: editions, title: 'Everything', recipient: 'bench' }, { lot });
  const ms = performance.now() - begun;
  const pages = answer.files.reduce((sum, file) => sum + file.pages, 0);
  return JSON.stringify({ ms, pages, peakMb: process.resourceUsage().maxRSS / 1024 });
}

process.stdout.write('ready\n');
for await (const line of createInterface({ input: process.stdin })) {
  const packets = join(folder, 'packets');
  for (const name of readdirSync(packets)) rmSync(join(packets, name), { recursive: true });
  if (line === 'assemble') process.stdout.write(`${await assembleOnce()}\n`);
  else process.stdout.write('ready\n');
}
