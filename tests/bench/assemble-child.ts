import { openDesk } from '../../core/desk/desk.ts';

/**
 * Run as a process of its own, so that its peak memory is the assembling's alone:
 * opens a kept lot, assembles all its papers three times, prints the milliseconds of each and the peak in MB.
 */
const [folder = ''] = process.argv.slice(2);
await using desk = openDesk({ program: 'bench', today: () => '2026-04-14' });
const { lot } = await desk.ask('open-lot', { folder: desk.tickets.offer(folder) });
const { papers } = await desk.ask('papers', {}, { lot });
const editions = papers.flatMap((paper) => paper.editions.map(({ edition }) => edition));
const times: number[] = [];
let pages = 0;
for (let run = 0; run < 3; run += 1) {
  const begun = performance.now();
  const answer = await desk.ask('assemble', { papers: editions, title: 'Everything', recipient: 'bench' }, { lot });
  times.push(performance.now() - begun);
  pages = answer.files.reduce((sum, file) => sum + file.pages, 0);
}
process.stdout.write(JSON.stringify({ times, pages, peakMb: process.resourceUsage().maxRSS / 1024 }));
