import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFindings, type OpenWindow, openWindow, sampleDay } from './harness.ts';
import { noteFirms } from './sample-money.ts';

/** In light and in dark. */
async function axeBoth(page: Page): Promise<readonly string[]> {
  const light = await axeFindings(page);
  await page.emulateMedia({ colorScheme: 'dark' });
  await page.locator('html[data-light="dark"]').waitFor();
  const dark = await axeFindings(page);
  await page.emulateMedia({ colorScheme: 'light' });
  await page.locator('html[data-light="light"]').waitFor();
  return [...light, ...dark];
}

function firm(page: Page, name: string) {
  return page.locator('.trades-firm', { has: page.getByRole('heading', { name, exact: true }) });
}

describe('trades', () => {
  let open: OpenWindow;
  beforeAll(async () => {
    open = await openWindow({ sample: true });
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  it('answers at the top that nobody is on site without cover, where that is so', async () => {
    const page = await open.openSample('trades');
    await page.getByRole('heading', { name: 'Who is on site without cover?' }).waitFor();
    await page.getByText('No firm you noted is on site today.').waitFor();
    await firm(page, 'Wrenhollow Electric').getByText('good through 15 Mar 2027').first().waitFor();
  });

  it('says who is there without cover today, and which days are still to come', async () => {
    const { folder } = await open.host.sampleLot();
    const { lot } = await open.host.desk.ask('open-lot', { folder });
    await noteFirms({ desk: open.host.desk, lot, on: sampleDay });
    const page = await open.openSample('trades');
    const answer = page.locator('.trades-answer');
    await answer
      .getByText(/^Marshgate Earthworks \(earthwork\): no contractor licence, .* for 16 Mar 2026 through 8 May 2026/)
      .waitFor();
    await answer
      .getByText(/^Alder and Ash Framing \(framing\): no .* 14 Sep 2026 through 20 Nov 2026, 68 days/)
      .waitFor();
    const alder = firm(page, 'Alder and Ash Framing');
    await alder.getByText('after Quillfeather Framing').waitFor();
    await alder.getByText(/^For 14 Sep 2026 through 20 Nov 2026: contractor licence/).waitFor();
    await firm(page, 'Eavesborough Roofing')
      .getByText(/On which day do they begin/)
      .waitFor();
    expect(await axeBoth(page)).toEqual([]);
  });

  it('lets another firm take over, by keyboard alone, and takes it back', async () => {
    const { page } = open;
    await page.getByRole('button', { name: 'Another firm takes over from Dovesink Plumbing' }).focus();
    await page.keyboard.press('Enter');
    const slip = page.getByRole('dialog', { name: 'Another firm takes over from Dovesink Plumbing' });
    await slip.waitFor();
    await page.keyboard.type('Millrace Plumbing');
    await page.keyboard.press('Tab');
    await page.keyboard.type('10052026');
    await slip.getByRole('button', { name: 'Note the firm' }).focus();
    await page.keyboard.press('Enter');
    const millrace = firm(page, 'Millrace Plumbing');
    await millrace.getByText(/^5 Oct 2026 to 26 Feb 2027/).waitFor();
    await firm(page, 'Dovesink Plumbing').getByText('8 Jun 2026 to 4 Oct 2026').waitFor();
    await page.getByRole('button', { name: 'Undo' }).first().click();
    await millrace.waitFor({ state: 'detached' });
    await firm(page, 'Dovesink Plumbing').getByText('8 Jun 2026 to 26 Feb 2027').waitFor();
  });

  it('keeps a supplier’s notice with the firm it delivers for', async () => {
    const { page } = open;
    await page.getByRole('button', { name: 'A supplier gave notice: of Quillfeather Framing' }).click();
    const slip = page.getByRole('dialog');
    await slip.getByLabel('Supplier, as written on the notice').fill('Tall Timber Supply');
    expect(await axeFindings(page)).toEqual([]);
    await slip.getByRole('button', { name: 'Note it' }).click();
    const quillfeather = firm(page, 'Quillfeather Framing');
    await quillfeather.getByText(/Notice of Tall Timber Supply, 14 Apr 2026/).waitFor();
    await quillfeather.getByRole('button', { name: 'Take away the notice of Tall Timber Supply' }).click();
    await quillfeather.getByText(/Notice of Tall Timber Supply/).waitFor({ state: 'detached' });
  });

  it('hands out the list of firms', async () => {
    const { page } = open;
    const [list] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save the list of firms' }).click(),
    ]);
    expect(list.suggestedFilename()).toMatch(/list-of-firms.*\.pdf$/);
  });
});
