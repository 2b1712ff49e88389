import { expect, it } from 'vitest';
import { openWindow } from './harness.ts';

// A link of the contents scrolled into view was the place Tab started from: the way to skip to the sheet was passed by.
it('a page freshly opened on any screen starts the Tab key at "Skip to the sheet"', async () => {
  await using open = await openWindow({ sample: true });
  const page = await open.openSample('today');
  const paper = await page.locator('.today-amiss a[href*="/papers/"]').first().getAttribute('href');
  // Those that have something to scroll to.
  for (const screen of ['lot', 'way', 'errand/permit-apply', paper?.replace('#/sample/', '') ?? '']) {
    await open.openSample(screen);
    await page.waitForLoadState('networkidle');
    // After the screen's effects, and the frame in which their scrolling is done.
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.textContent), screen).toBe('Skip to the sheet');
  }
});

it('with letters at 200% the contents still show the link of the screen one is on', async () => {
  await using open = await openWindow({ sample: true });
  const page = await open.openSample('today');
  await page.getByRole('button', { name: 'Marks and reading' }).click();
  await page.getByText('200%', { exact: true }).click();
  await page.getByRole('button', { name: 'Close' }).click();
  for (const screen of ['history', 'today']) {
    await open.go(`#/sample/${screen}`);
    await page.getByRole('heading', { level: 1 }).waitFor();
    const seen = await page.evaluate((at) => {
      const link = document.querySelector(`nav.contents a[href="#/sample/${at}"]`)?.getBoundingClientRect();
      const row = document.querySelector('nav.contents')?.getBoundingClientRect();
      return link && row ? link.left >= row.left - 1 && link.right <= row.right + 1 : undefined;
    }, screen);
    expect(seen, screen).toBe(true);
  }
});
