import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFindings, type OpenWindow, openWindow } from './harness.ts';

const samples = join(import.meta.dirname, '..', '..', 'sample-project', 'papers');
const photos = ['house back.JPG', 'house front.JPG', 'house left.JPG'].map((name) => join(samples, name));

/** In light and in dark. */
async function axeBoth(page: Page): Promise<readonly string[]> {
  const light = await axeFindings(page);
  await page.emulateMedia({ colorScheme: 'dark' });
  await page.locator('html[data-light="dark"]').waitFor();
  const dark = await axeFindings(page);
  await page.emulateMedia({ colorScheme: 'light' });
  return [...light, ...dark];
}

describe('photos and receipts', () => {
  let open: OpenWindow;
  let page: Page;
  const row = (name: string) => page.getByRole('button', { name: new RegExp(name) });
  beforeAll(async () => {
    open = await openWindow({ sample: true });
    page = await open.openSample('records');
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  it('teaches what belongs here while nothing is noted', async () => {
    await page.getByRole('heading', { name: 'No photos or receipts yet' }).waitFor();
    expect(await axeBoth(page)).toEqual([]);
  });

  it('notes several photos with what they have in common, each by its camera’s day and a small picture', async () => {
    await page.locator('input[type=file]').first().setInputFiles(photos);
    const slip = page.getByRole('dialog', { name: 'Note 3 photos' });
    await slip.getByLabel('Place').fill('Outside');
    await slip.getByLabel('Trade').fill('siding');
    expect(await axeBoth(page)).toEqual([]);
    await slip.getByRole('button', { name: 'Note 3 photos' }).click();
    await page.getByText('Noted 3 photos.').waitFor();
    await row('house back').getByText('Photo · Outside · siding').waitFor();
    const small = row('house front').locator('img');
    await expect
      .poll(() => small.evaluate((image) => image instanceof HTMLImageElement && image.naturalWidth))
      .toBe(320);
    expect(await axeBoth(page)).toEqual([]);
  });

  it('says a wall of two at once with the keyboard, and takes it back', async () => {
    for (const name of ['house back', 'house left']) {
      await page.getByRole('checkbox', { name: `Choose ${name}` }).focus();
      await page.keyboard.press('Space');
    }
    await page.getByRole('button', { name: 'Say where and whose' }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('dialog', { name: 'Say of all 2' }).getByLabel('Wall or side').focus();
    await page.keyboard.type('north');
    await page.getByRole('button', { name: 'Say it of all 2' }).focus();
    await page.keyboard.press('Enter');
    await row('house left').getByText('Photo · Outside · north · siding').waitFor();
    await page
      .getByRole('button', { name: /^Undo: / })
      .first()
      .click();
    await row('house left').getByText('Photo · Outside · siding').waitFor();
  });

  it('shows one large, corrects it, and stands by place', async () => {
    await row('house front').click();
    const slip = page.getByRole('dialog', { name: 'house front' });
    await slip.getByRole('img', { name: 'house front' }).waitFor();
    await slip.getByLabel('Place').fill('Porch');
    await slip.getByRole('button', { name: 'Correct it' }).click();
    await page.getByText('By place', { exact: true }).click();
    await page.getByRole('heading', { name: /Porch/ }).waitFor();
    await page.getByLabel('With the words').fill('porch');
    await row('house back').waitFor({ state: 'detached' });
    await row('house front').waitFor();
  });
});
