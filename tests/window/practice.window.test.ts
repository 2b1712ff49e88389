import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFindings, type OpenWindow, openWindow } from './harness.ts';

describe('local practice', () => {
  let open: OpenWindow;
  beforeAll(async () => {
    open = await openWindow({ sample: true });
    await open.openSample('practice');
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  it('shows what a rule would change on this lot before it is noted', async () => {
    const { page } = open;
    await page.getByRole('heading', { name: 'Rules' }).waitFor();
    const words = await page.locator('.practice-words > li').count();
    await page.getByRole('button', { name: /Which errand/ }).click();
    await page.getByRole('option', { name: 'Apply for the building permit' }).click();
    await page.getByRole('button', { name: 'They said otherwise: Apply for the building permit, Fee' }).click();
    const slip = page.getByRole('dialog', { name: 'The office said otherwise' });
    await slip.getByRole('textbox', { name: 'Fee' }).fill('700 usd');
    await slip.getByRole('button', { name: 'See first what it changes on this lot' }).focus();
    await page.keyboard.press('Enter');
    await slip.getByText(/Fees still to pay come to \$[\d,.]+ instead of \$[\d,.]+/).waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await slip.getByRole('textbox', { name: 'Fee' }).fill('a lot');
    await slip.getByRole('button', { name: 'See first what it changes on this lot' }).click();
    await slip.getByRole('alert').getByText('Write an amount, like $385, or free.').waitFor();
    expect(await slip.getByRole('textbox', { name: 'Fee' }).inputValue()).toBe('a lot');
    await page.keyboard.press('Escape');
    await slip.waitFor({ state: 'detached' });
    expect(await page.locator('.practice-words > li').count()).toBe(words);
  });

  // Nothing in the window let them note what a clerk says most often.
  it('notes that they want another paper too, shows what that changed, and takes it back', async () => {
    const { page } = open;
    await page.getByRole('button', { name: 'They want another paper too' }).click();
    const slip = page.getByRole('dialog', { name: 'They want another paper too' });
    await slip.getByRole('combobox', { name: 'Which paper do they want?' }).fill('something');
    await page.getByRole('option', { name: /Something else/ }).click();
    await slip.getByLabel('What they call it').fill('Culvert deposit receipt');
    await slip.getByRole('radio', { name: 'they look at it and give it back' }).check({ force: true });
    expect(await axeFindings(page)).toEqual([]);
    await slip.getByLabel('Who said so').fill('Ms. Pruitt');
    await slip.getByRole('button', { name: 'Note that they want it' }).click();
    await slip.waitFor({ state: 'detached' });
    const word = page.locator('.practice-words > li', { hasText: 'Ms. Pruitt' });
    await word.getByText('They want Culvert deposit receipt: one copy, shown and taken back.').waitFor();
    expect(await word.locator('del').textContent()).toBe('Culvert deposit receipt was not asked for.');
    expect(await axeFindings(page)).toEqual([]);
    await open.go('#/sample/errand/permit-apply');
    await page.locator('.errand-need', { hasText: 'Culvert deposit receipt' }).waitFor();
    await page.getByRole('button', { name: 'They want another paper too' }).waitFor();
    await open.go('#/sample/practice');
    await page.getByRole('button', { name: /^Take back: .*Culvert deposit receipt/ }).click();
    await word.waitFor({ state: 'detached' });
    await page.getByRole('button', { name: /Which errand/ }).click();
    await page.getByRole('option', { name: 'Apply for the building permit' }).click();
  });

  it('folds the rules of each paper an errand asks for, and says on whose word they stand', async () => {
    const { page } = open;
    const plans = page.getByRole('button', { name: /^\d+ rules: House plans$/ });
    expect(await plans.getAttribute('aria-expanded')).toBe('false');
    expect(await page.locator('.practice-rules').count()).toBe(1);
    await plans.press('Enter');
    const group = page.locator('.practice-group', { hasText: 'House plans' });
    await group.getByText('They want 3 copies.').waitFor();
    expect(await group.textContent()).toContain('R. Amsel told you on 2 Apr 2026');
    expect(await axeFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'fold: House plans' }).press('Enter');
    await group.getByText('They want 3 copies.').waitFor({ state: 'detached' });
  });

  it('hands the amendments to a neighbour as one file, and shows what such a file would change', async () => {
    const { page } = open;
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save the amendments for a neighbour' }).click(),
    ]);
    expect(file.suggestedFilename()).toMatch(/amendments-2026-04-14\.yaml$/);
    expect(readFileSync(await file.path(), 'utf8')).toContain('title: Brindlemoor County');
    const path = join(open.folder, 'next-door.yaml');
    const told = 'amends_only: yes\nbasis: { told by: R. Amsel, on: 2026-04-02 }\n';
    writeFileSync(path, `${told}errands:\n  permit-apply: { fee: 700 usd }\n`);
    const [chooser] = await Promise.all([
      page.waitForEvent('filechooser'),
      page.getByRole('button', { name: 'Look into a neighbour’s amendments ...' }).click(),
    ]);
    await chooser.setFiles(path);
    const slip = page.getByRole('dialog', { name: 'A neighbour’s amendments' });
    await slip.getByText(/Fees still to pay come to/).waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await slip.getByRole('button', { name: 'Lay them over' }).click();
    await page.getByText(/^Laid over: /).waitFor();
    await page.getByRole('button', { name: /^Undo: Laid over/ }).click();
    await page.getByText(/^Taken back: Laid over/).waitFor();
  });
});
