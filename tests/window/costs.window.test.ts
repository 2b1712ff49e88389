import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFindings, type OpenWindow, openWindow, sampleDay } from './harness.ts';
import { noteMoney } from './sample-money.ts';

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

async function typeDay(page: Page, label: string, day: string): Promise<void> {
  await page.getByRole('group', { name: label }).getByRole('spinbutton').first().focus();
  await page.keyboard.type(day);
}

describe('costs and draws', () => {
  let open: OpenWindow;
  beforeAll(async () => {
    open = await openWindow({ sample: true });
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  it('teaches what the place is for, and the first line is written by keyboard alone', async () => {
    const page = await open.openSample('costs');
    await page.getByRole('heading', { name: 'No estimate yet' }).waitFor();
    expect(await axeBoth(page)).toEqual([]);
    await page.getByRole('button', { name: 'Write the first line' }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('dialog', { name: 'A line of the estimate' }).waitFor();
    await page.keyboard.type('Masonry');
    await page.keyboard.press('Tab');
    await page.keyboard.type('12,345.60');
    await page.keyboard.press('Tab');
    await page.keyboard.type('12,000');
    await page.getByRole('button', { name: 'Note it' }).focus();
    await page.keyboard.press('Enter');
    const row = page.getByRole('row', { name: /Masonry/ });
    await row.waitFor();
    expect(await row.getByRole('cell').allTextContents()).toEqual(['12,345.60', '12,000', '—', '12,000']);
    await page.getByText('The estimate has no contingency.').waitFor();
    await page.getByRole('button', { name: 'Undo' }).first().click();
    await page.getByRole('heading', { name: 'No estimate yet' }).waitFor();
  });

  it('shows the ledger with its sums, what the contingency has left, and what is insured', async () => {
    const { folder } = await open.host.sampleLot();
    const { lot } = await open.host.desk.ask('open-lot', { folder });
    await noteMoney({ desk: open.host.desk, lot, on: sampleDay });
    const page = await open.openSample('costs');
    const total = page.getByRole('row', { name: /The house without the land/ });
    expect(await total.getByRole('cell').allTextContents()).toEqual(['490,600', '227,710', '41,850', '354,960']);
    await page
      .getByRole('row', { name: /Contingency/ })
      .getByText('$93,150 left')
      .waitFor();
    const value = page.locator('.costs-note', { hasText: 'Finished value and insurance' });
    expect(await value.locator('dd').allTextContents()).toEqual(['486,000', '62,000', '424,000', '424,000']);
    expect(await axeBoth(page)).toEqual([]);
  });

  it('takes an invoice through payment to waiver, and a wrong sum is told in a sentence', async () => {
    const { page } = open;
    await page.getByRole('button', { name: 'Note a payment to Loamfield Septic' }).click();
    const slip = page.getByRole('dialog', { name: 'Payment to Loamfield Septic' });
    await slip.getByLabel('Amount, in dollars').fill('99,999');
    await slip.getByRole('button', { name: 'Note it' }).click();
    await page.getByText(/more than is open on this invoice/).waitFor();
    await slip.getByLabel('Amount, in dollars').fill('9,840.50');
    await slip.getByLabel('How').fill('cheque 121');
    await typeDay(page, 'Cleared on, once it has', '04142026');
    await slip.getByRole('button', { name: 'Note it' }).click();
    const invoice = page.getByRole('listitem').filter({ hasText: 'Loamfield Septic' });
    await invoice.getByText('next: unconditional waiver').waitFor();
    await invoice.getByRole('button', { name: 'Note a waiver of Loamfield Septic' }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Note it' }).click();
    await invoice.getByText('unconditional progress').waitFor();
    expect(await invoice.getByText(/^next:/).count()).toBe(0);
  });

  it('names of the four waivers the one a payment calls for, and ties invoice and paper by choosing', async () => {
    const { page } = open;
    await page.getByRole('button', { name: 'Note a waiver of Loamfield Septic' }).click();
    const slip = page.getByRole('dialog');
    const byPayment = slip.getByRole('list', { name: 'Waivers by payment' });
    await byPayment.getByText(/cheque 121: unconditional (progress|final)/).waitFor();
    await slip.getByText('unconditional final', { exact: true }).click();
    await slip.getByText('After the last money came: gives up the whole right, whatever happens.').waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Change the invoice of Quillfeather Framing' }).click();
    await page.getByRole('button', { name: /The invoice or receipt itself/ }).click();
    await page.getByRole('option', { name: /^Cost breakdown/ }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Note it' }).click();
    const invoice = page.getByRole('listitem').filter({ hasText: 'Quillfeather Framing' });
    await invoice.getByRole('link', { name: 'the paper' }).waitFor();
  });

  it('holds a draw back while a waiver is missing, says so beside the button, and lets it go when it is there', async () => {
    const { page } = open;
    await page.getByRole('link', { name: 'Draw 2' }).click();
    await page.getByRole('heading', { level: 1, name: 'Draw 2' }).waitFor();
    await page.getByText(/No waiver from Tall Timber Supply/).waitFor();
    expect(await page.getByRole('button', { name: 'It was asked for today' }).isDisabled()).toBe(true);
    await page
      .getByText('It can’t be noted as asked for yet: a lien waiver missing; what to do stands below.')
      .waitFor();
    expect(await page.locator('main').textContent()).not.toMatch(/leg missing|legs missing/i);
    const total = page.getByRole('row', { name: /^Total/ });
    expect((await total.getByRole('cell').allTextContents()).slice(0, 5)).toEqual([
      '489,960',
      '41,850',
      '24,840.50',
      '3,500',
      '70,190.50',
    ]);
    await open.go('#/sample/costs');
    await page.getByRole('button', { name: 'Note a waiver of Quillfeather Framing' }).click();
    await page.getByRole('radio', { name: 'Tall Timber Supply' }).check({ force: true });
    await page.getByRole('dialog').getByRole('button', { name: 'Note it' }).click();
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await open.go('#/sample/costs/draw/2');
    // Signed on the sample's day, a day after the draw's: the lender gets both on the later day.
    await page.getByRole('button', { name: 'Change its sums' }).click();
    await typeDay(page, 'Work through', '04142026');
    await page.getByRole('dialog').getByRole('button', { name: 'Note it' }).click();
    await page.getByText(/Nothing is missing of what you noted/).waitFor();
    await page.getByRole('button', { name: 'It was asked for today' }).click();
    await page.getByRole('button', { name: 'The lender paid it today' }).waitFor();
    expect(await axeBoth(page)).toEqual([]);
  });

  it('draws up the next draw line by line', async () => {
    const { page } = open;
    await open.go('#/sample/costs');
    await page.getByRole('button', { name: 'Draw up a draw' }).click();
    const slip = page.getByRole('dialog', { name: 'Draw 3' });
    await slip.getByLabel('Framing: work since').fill('3,500');
    expect(await axeFindings(page)).toEqual([]);
    await slip.getByRole('button', { name: 'Draw it up' }).click();
    await page.getByRole('heading', { level: 1, name: 'Draw 3' }).waitFor();
    const framing = page.getByRole('row', { name: /^Framing/ });
    expect((await framing.getByRole('cell').allTextContents()).slice(1, 4)).toEqual(['15,000', '3,500', '—']);
  });

  it('hands out the cost breakdown and the draw request as PDF files', async () => {
    const { page } = open;
    const [request] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: /Save the draw request/ }).click(),
    ]);
    expect(request.suggestedFilename()).toMatch(/^draw-request-3-heron-lane/);
    await open.go('#/sample/costs');
    const [breakdown] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save the cost breakdown' }).click(),
    ]);
    expect(breakdown.suggestedFilename()).toMatch(/^cost-breakdown-heron-lane.*\.pdf$/);
  });
});
