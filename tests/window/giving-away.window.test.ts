import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFindings, type OpenWindow, openWindow } from './harness.ts';

describe('a copy to give away', () => {
  let open: OpenWindow;
  let page: Page;
  const bar = () => page.getByRole('region', { name: 'Black out places' });
  beforeAll(async () => {
    open = await openWindow({ sample: true });
    page = await open.openSample('papers/deed');
    await page.getByRole('button', { name: 'Black out places' }).waitFor();
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  it('has places drawn with the hand or by keys, and taken away again', async () => {
    await page.getByRole('button', { name: 'Black out places' }).click();
    expect(await bar().getByRole('button', { name: 'Black out 0 places' }).isDisabled()).toBe(true);
    const layer = page.locator('.draw-layer').first();
    const box = await layer.boundingBox();
    if (box === null) throw new Error('The page is not shown.');
    await page.mouse.move(box.x + 60, box.y + 60);
    await page.mouse.down();
    await page.mouse.move(box.x + 200, box.y + 90, { steps: 4 });
    await page.mouse.up();
    await bar().getByRole('button', { name: 'Black out one place' }).waitFor();
    await bar().getByRole('button', { name: 'Add a place' }).focus();
    await page.keyboard.press('Enter');
    const second = page.getByRole('button', { name: /^Place 2 on page 1/ });
    await second.focus();
    const before = await second.boundingBox();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Shift+ArrowRight');
    await expect.poll(async () => (await second.boundingBox())?.y).toBeGreaterThan(before?.y ?? 0);
    expect((await second.boundingBox())?.width).toBeGreaterThan(before?.width ?? 0);
    expect(await axeFindings(page)).toEqual([]);
    await page.keyboard.press('Delete');
    await second.waitFor({ state: 'detached' });
  });

  it('is made, counts from then on, and names what it was made from', async () => {
    await bar().getByRole('button', { name: 'Black out one place' }).click();
    await page.getByText('Blacked out on page 1').waitFor();
    await page
      .getByText(/made from/i)
      .first()
      .waitFor();
    await bar().waitFor({ state: 'detached' });
  });

  it('is made smaller, with both sizes', async () => {
    await page.getByRole('button', { name: 'Make a smaller one' }).click();
    const slip = page.getByRole('dialog', { name: 'A smaller copy' });
    await slip.getByText('1 MB', { exact: true }).click();
    await slip.getByRole('button', { name: 'Make it at most 1 MB' }).click();
    await slip.getByText(/before,/).waitFor();
    await slip.getByRole('button', { name: /^Save .*smaller\.pdf/ }).waitFor();
    expect(await axeFindings(page)).toEqual([]);
  });
});
