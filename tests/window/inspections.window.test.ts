import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFindings, type OpenWindow, openWindow } from './harness.ts';
import { begunBuilding, buildingDay } from './sample-building.ts';

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

async function saved(page: Page, button: string): Promise<string> {
  const [file] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: button, exact: true }).click(),
  ]);
  return file.suggestedFilename();
}

describe('inspections', () => {
  let open: OpenWindow;
  beforeAll(async () => {
    open = await openWindow({ sample: true });
    await begunBuilding(open);
    await open.openSample('inspections');
    await open.page.evaluate((day) => window.localStorage.setItem('lotfile.day.sample', day), buildingDay);
    await open.page.reload();
    await open.page.getByRole('heading', { name: 'Not yet' }).waitFor();
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  it('says in large letters what may not be covered yet, and of what is recorded only that it is recorded', async () => {
    const { page } = open;
    const gates = page.locator('.inspections-gate');
    const slab = gates.filter({ has: page.getByRole('heading', { name: 'Before you pour the slab' }) });
    await slab.getByText('not recorded as settled · not passed on 13 Jul 2026').waitFor();
    await page.getByText('Passed inspection recorded on 22 Jun 2026 by Brindlemoor Building Inspections.').waitFor();
    expect(await page.locator('main').textContent()).not.toMatch(/safe to cover|\bsafe\b/i);
    // 180 days from the approved inspection of 22 June.
    await page.locator('.inspections-idle', { hasText: 'BP-26-0412 good through Sat 19 Dec 2026' }).waitFor();
    expect(await axeBoth(page)).toEqual([]);
  });

  it('shows of the next one what lies ready, how it is booked, what coming again costs and how it may end', async () => {
    const { page } = open;
    const next = page.locator('.inspections-next');
    await next.getByRole('link', { name: 'Temporary power at the site' }).waitFor();
    await next.getByText('Booked for Wed 5 Aug 2026.').waitFor();
    await next.getByText('ground rod driven').waitFor();
    await next.getByText('1 working day ahead, taken until 14:00').waitFor();
    await next.getByText('$50; coming a second time costs $45').waitFor();
    await next.getByText('passed, not passed, no access').waitFor();
  });

  it('notes what came of a booking in its place by keyboard, with the words this office uses', async () => {
    const { page } = open;
    await page.getByRole('button', { name: 'What came of it: Temporary power at the site' }).focus();
    await page.keyboard.press('Enter');
    const slip = page.getByRole('dialog', { name: 'What came of it' });
    await slip.waitFor();
    expect(
      await slip.getByRole('radio').evaluateAll((all) => all.map((each) => each.closest('label')?.textContent)),
    ).toEqual(['Booked', 'Passed', 'Not passed', 'No access', 'Cancelled']);
    await slip.getByText('No access').click();
    await slip.getByText('It counts as no inspection').waitFor();
    // It begins at the booked day, which is still to come; another one has to say which visit it was.
    await slip.getByText('Wed 5 Aug 2026 is still to come: say the day they came.').waitFor();
    const note = slip.getByRole('button', { name: 'Note it' });
    expect(await note.isDisabled()).toBe(true);
    await slip.getByRole('group', { name: 'On' }).getByRole('spinbutton').first().focus();
    await page.keyboard.type('8032026');
    await slip.getByText('Was this the visit booked for Wed 5 Aug 2026?').waitFor();
    expect(await note.isDisabled()).toBe(true);
    await slip.getByText('Yes, on another day').click();
    expect(await axeFindings(page)).toEqual([]);
    await slip.getByRole('button', { name: 'Note it' }).focus();
    await page.keyboard.press('Enter');
    const next = page.locator('.inspections-next');
    await next.getByText('$45, for coming again').waitFor();
    await next.getByText('no access 3 Aug 2026').waitFor();
    expect(await next.getByText('Booked for').count()).toBe(0);
    await page.getByRole('button', { name: /^Undo: Temporary power/ }).click();
    await next.getByText('Booked for Wed 5 Aug 2026.').waitFor();
  });

  it('closes a correction by its number with the paper that shows it', async () => {
    const { page } = open;
    const corrections = page.locator('.inspections-corrections');
    await corrections.getByText('2 to answer').waitFor();
    await page.getByRole('button', { name: 'Answer comment 1' }).click();
    const slip = page.getByRole('dialog', { name: 'Comment 1' });
    await slip.getByLabel('What was done about it').fill('New barrier laid and taped.');
    await slip.getByRole('button', { name: 'Note the answer' }).click();
    await corrections.getByText('1 to answer').waitFor();
    await corrections.getByText('answered 3 Aug 2026: New barrier laid and taped.').waitFor();
  });

  it('writes the log, the day’s sheet and the hold sheet', async () => {
    const { page } = open;
    expect(await saved(page, 'Save the inspection log')).toMatch(/^inspection-log.*\.pdf$/);
    const day = 'Save the inspection-day sheet: Temporary power at the site';
    expect(await saved(page, day)).toMatch(/^day-temporary-power.*\.pdf$/);
    expect(await saved(page, 'Save the hold sheet: Before you pour the slab')).toMatch(/^hold-.*\.pdf$/);
  });

  it('brings in an inspection other places hold, with what waits for it', async () => {
    const { page } = open;
    await page.getByRole('button', { name: /^show all \d+$/ }).click();
    await page.getByRole('button', { name: 'They told me: Roof deck fastening inspection' }).click();
    const slip = page.getByRole('dialog', { name: 'The office said otherwise' });
    await slip.getByText('yes', { exact: true }).click();
    await slip.getByLabel('Who said so').fill('R. Amsel');
    await slip.getByRole('button', { name: 'Note what they said' }).click();
    const row = page.locator('.inspections-row', { hasText: 'Roof deck fastening inspection' });
    await row.getByText('Before you cover the roof deck').waitFor();
  });

  it('a paper and its errand show a licensed person’s number reckoned again, with source and caution', async () => {
    const { page } = open;
    await open.go('#/sample/papers/air-leakage-report');
    const figure = page.locator('.figure', { hasText: 'Air changes per hour at 50 pascals' });
    await figure.getByText('3 air changes per hour').waitFor();
    await figure.getByText('ours differs: look at both again').waitFor();
    await figure.getByText(/Fan flow x 60 \/ conditioned volume.*The tester and your official decide/).waitFor();
    expect(await axeBoth(page)).toEqual([]);
    await open.go('#/sample/errand/occupancy-walk');
    await page.locator('.errand-figures').getByText('ours differs: look at both again').waitFor();
    await open.go('#/sample/inspections');
  });

  it('stands at twice the letters without running off to the side', async () => {
    const { page } = open;
    await page.evaluate(() => window.localStorage.setItem('lotfile.size', '200'));
    await page.reload();
    await page.getByRole('heading', { name: 'Not yet' }).waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0);
  });
});
