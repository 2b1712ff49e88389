import { readFileSync } from 'node:fs';
import type { BrowserContext, Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { openWindow } from './harness.ts';
import { makeLargeLot } from './large-lot.ts';

/** From a click to the first frame that shows the screen asked for, measured inside the page. */
async function clickTo(page: Page, link: string, seen: string): Promise<number> {
  return page.evaluate(
    async ({ href, wanted }) => {
      const target = [...document.querySelectorAll('nav a')].find((each) => each.textContent?.startsWith(href));
      if (!(target instanceof HTMLElement)) throw new Error(`No link ${href}`);
      const began = performance.now();
      target.click();
      while (
        !document.querySelector('main h1')?.textContent?.startsWith(wanted) ||
        document.querySelector('main .waiting')
      ) {
        await new Promise((resolve) => requestAnimationFrame(resolve));
        if (performance.now() - began > 20_000) throw new Error(`${wanted} did not come`);
      }
      return performance.now() - began;
    },
    { href: link, wanted: seen },
  );
}

/** Resident memory of the browser's page processes, shared libraries counted in part (PSS), in MB; 0 off Linux. */
async function pageMemory(context: BrowserContext): Promise<number> {
  const session = await context.browser()?.newBrowserCDPSession();
  if (session === undefined || process.platform !== 'linux') return 0;
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  const kilobytes = processInfo
    .filter(({ type }) => type === 'renderer')
    .map(({ id }) => Number(/^Pss:\s+(\d+)/m.exec(readFileSync(`/proc/${id}/smaps_rollup`, 'utf8'))?.[1] ?? 0));
  return Math.round(kilobytes.reduce((sum, each) => sum + each, 0) / 1024);
}

/**
 * The figures are printed, not judged: a noisy machine would make a time limit a coin toss. `npm run bench` tells the
 * table; what is judged here is that everything of a large lot is there.
 */
it('shows every screen of a lot with 400 papers and 3,000 photos', async () => {
  await using open = await openWindow({ today: '2026-11-20', ownBrowser: true });
  const folder = makeLargeLot(open.folder, { papers: 480, photos: 3000 });
  const ticket = open.host.folderTicket(folder);
  const reply = await open.host.ask('open-lot', { folder: ticket }, {});
  expect(reply.ok).toBe(true);
  const { page } = open;
  await page.reload();
  await page.getByRole('button', { name: 'Open Large lot' }).click();
  await page.locator('main.screen h1').waitFor();
  const paint = await page.evaluate(() => performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? 0);
  const lines = [`first paint ${Math.round(paint)} ms`];
  const stops = [
    ['Papers', 'Papers'],
    ['The way', 'The way'],
    ['Lot', 'Large lot'],
    ['With the offices', 'With the offices'],
    ['Today', 'Today'],
    ['What was done', 'What was done'],
  ] as const;
  for (const round of ['first', 'again']) {
    for (const [link, heading] of stops) {
      lines.push(`${link} ${round} ${Math.round(await clickTo(page, link, heading))} ms`);
    }
  }
  const session = await open.context.newCDPSession(page);
  await session.send('Performance.enable');
  const { metrics } = await session.send('Performance.getMetrics');
  const heap = metrics.find(({ name }) => name === 'JSHeapUsedSize')?.value ?? 0;
  lines.push(`page heap ${Math.round(heap / 1e6)} MB`);
  lines.push(`page process ${await pageMemory(open.context)} MB`);
  process.stdout.write(`${lines.join('\n')}\n`);
  await page.getByRole('link', { name: 'Papers', exact: true }).click();
  const all = await page
    .getByText(/^All \d+$/)
    .first()
    .textContent();
  expect(Number(all?.replace('All ', ''))).toBeGreaterThanOrEqual(400);
});
