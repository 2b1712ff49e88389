import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFindings, type OpenWindow, openWindow } from './harness.ts';

/** In light and in dark. */
async function axeBoth(page: Page): Promise<readonly string[]> {
  const light = await axeFindings(page);
  await page.emulateMedia({ colorScheme: 'dark' });
  await page.locator('html[data-light="dark"]').waitFor();
  const dark = await axeFindings(page);
  await page.emulateMedia({ colorScheme: 'light' });
  return [...light, ...dark];
}

describe('the find line', () => {
  let open: OpenWindow;
  beforeAll(async () => {
    open = await openWindow({ sample: true });
    await open.openSample('today');
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  it('is reached from anywhere by "/" and finds a paper by its number', async () => {
    const { page } = open;
    await page.keyboard.press('/');
    await page.keyboard.type('DW-26-058');
    await page.keyboard.press('Backspace');
    await page.keyboard.press('Enter');
    await page
      .getByRole('heading', { level: 1, name: /DW-26-05/ })
      .or(page.getByText('Nothing found'))
      .first()
      .waitFor();
    await page.keyboard.press('/');
    await page.getByRole('searchbox').fill('EH-24-0317');
    await page.keyboard.press('Enter');
    const entry = page
      .getByRole('listitem')
      .filter({ has: page.getByRole('heading', { name: 'Septic permit', exact: true }) });
    await entry.getByText('in its number').waitFor();
    expect(await entry.locator('mark').first().textContent()).toBe('EH-24-0317');
    expect(await axeBoth(page)).toEqual([]);
  });

  it('marks the found words on a page and opens the paper at that page', async () => {
    const { page } = open;
    await open.go('#/sample/find/primary%20trenches');
    const entry = page
      .getByRole('listitem')
      .filter({ has: page.getByRole('heading', { name: 'House plans', exact: true }) });
    await expect
      .poll(async () => (await entry.locator('mark').allTextContents()).map((text) => text.toLowerCase()))
      .toContain('trenches');
    await entry.getByRole('link', { name: 'on page 2' }).first().click();
    await page.getByRole('heading', { level: 1, name: 'House plans' }).waitFor();
    await page.getByText('Page 2 of 12').waitFor();
  });

  it('finds errands and offices as well', async () => {
    const { page } = open;
    await open.go('#/sample/find/driveway');
    await page.getByRole('heading', { level: 2, name: 'Errands' }).waitFor();
    await page.getByRole('link', { name: 'Apply for the driveway permit' }).first().click();
    await page.waitForURL(/#\/sample\/errand\//);
  });

  it('says what to try where nothing is found', async () => {
    const { page } = open;
    await open.go('#/sample/find/xylophone');
    await page.getByRole('heading', { name: 'Nothing found for “xylophone”' }).waitFor();
    await page.getByText('Fewer words, or only the beginning of one').waitFor();
    expect(await axeBoth(page)).toEqual([]);
  });
});
