import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFindings, type OpenWindow, openWindow } from './harness.ts';

describe('an office’s form, on its errand', () => {
  let open: OpenWindow;
  let page: Page;
  const dialog = () => page.getByRole('dialog');
  beforeAll(async () => {
    open = await openWindow({ sample: true });
    page = await open.openSample('errand/permit-apply');
    await page.getByRole('button', { name: 'Fill the form: Building permit application' }).click();
    await dialog().getByText('34 of 36 boxes filled, 1 to look at.').waitFor();
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  it('shows each box with its value and where it comes from, and the sheet as it will be', async () => {
    const owner = dialog().getByRole('listitem').filter({ hasText: 'Owner 1' }).first();
    expect(await owner.textContent()).toBe('Owner 1Hạnh Nguyễn Lindqvistthe first owner, as printed');
    await dialog().getByText('As it will be. Nothing is kept').waitFor();
    await dialog().locator('.form-page canvas').waitFor();
    expect(await dialog().locator('.form-mark.wrong').count()).toBe(1);
    await owner.hover();
    expect(await dialog().locator('.form-mark.pointed').count()).toBe(1);
    expect(await dialog().textContent()).toContain('You read it through and sign it');
    expect(await axeFindings(page)).toEqual([]);
  });

  it('lets a missing value be answered where it is missed', async () => {
    await dialog().getByRole('button', { name: 'Answer it here: Telephone' }).click();
    await dialog().getByLabel('Your answer').fill('555-0161');
    expect(await axeFindings(page)).toEqual([]);
    await dialog().getByRole('button', { name: 'Note it' }).click();
    await dialog().getByText('35 of 36 boxes filled.').waitFor();
    const phone = dialog().getByRole('listitem').filter({ hasText: 'Telephone' });
    expect(await phone.textContent()).toContain('555-0161');
  });

  it('fills it into the packet: the new copy is in hand, and it still has to be signed', async () => {
    await dialog().getByRole('button', { name: 'Fill it' }).click();
    await page
      .getByText('Filled 35 boxes. Read it through, print it, sign it; then keep the signed one.')
      .first()
      .waitFor();
    await dialog().waitFor({ state: 'detached' });
    const need = page.locator('.errand-need').filter({ hasText: 'Building permit application' }).first();
    await need.getByText('"signed by every owner" is asked for and not ticked').waitFor();
  });
});
