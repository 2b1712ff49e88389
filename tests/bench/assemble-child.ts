import { readdirSync, rmSync } from 'node:fs';
import { enableCompileCache } from 'node:module';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';

/**
 * Run as a process of its own, so that its peak memory is the assembling's alone: opens a kept lot, assembles all its
 * papers five times, prints the milliseconds of each and the peak in MB. What was assembled is removed in between:
 * the peers write over their last output too, and new disk blocks cost more than ones just freed.
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
const times: number[] = [];
let pages = 0;
let firstPeakMb = 0;
const peakMb = (): number => process.resourceUsage().maxRSS / 1024;
for (let run = 0; run < 5; run += 1) {
  const packets = join(folder, 'packets');
  for (const name of readdirSync(packets)) rmSync(join(packets, name), { recursive: true });
  // The disk is still busy with what was removed; that is not assembling.
  await setTimeout(500);
  const begun = performance.now();
  const answer = await desk.ask('assemble', { papers: editions, title: 'Everything', recipient: 'bench' }, { lot });
  times.push(performance.now() - begun);
  if (run === 0) firstPeakMb = peakMb();
  pages = answer.files.reduce((sum, file) => sum + file.pages, 0);
}
process.stdout.write(JSON.stringify({ times, pages, firstPeakMb, peakMb: peakMb() }));
