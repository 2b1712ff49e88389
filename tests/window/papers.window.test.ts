import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFindings, type OpenWindow, openWindow } from './harness.ts';

/** What the page says of itself as a whole, once it stands. */
async function headed(page: Page, name: string): Promise<void> {
  await page.getByRole('heading', { level: 1, name, exact: true }).waitFor();
}

async function undone(page: Page): Promise<void> {
  await page.getByRole('region', { name: 'Notices' }).getByRole('button', { name: 'Undo' }).last().click();
  await page
    .getByText(/^Taken back: /)
    .last()
    .waitFor();
}

describe('the drawer of papers', () => {
  let open: OpenWindow;
  let page: Page;
  beforeAll(async () => {
    open = await openWindow({ sample: true });
    page = await open.openSample('papers');
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  it('shows each paper as a card behind its office, with number, dates and state', async () => {
    await page.getByRole('heading', { level: 2, name: /Brindlemoor Environmental Health/ }).waitFor();
    const card = page
      .getByRole('article')
      .filter({ has: page.getByRole('link', { name: 'Septic permit', exact: true }) });
    await card.getByText('EH-24-0317').waitFor();
    expect(await card.getByText('28 Oct 2024').isVisible()).toBe(true);
    expect(await card.getByText('in hand').isVisible()).toBe(true);
    expect(await axeFindings(page)).toEqual([]);
  });

  it('shows what is still to get, with the errand that brings it', async () => {
    await page.getByText(/^Still to get \d+$/).click();
    const card = page.getByRole('article').filter({ has: page.getByRole('heading', { name: 'Driveway permit' }) });
    await card.getByRole('link', { name: 'Apply for the driveway permit' }).waitFor();
    expect(await card.getByText('awaited').isVisible()).toBe(true);
    expect(await page.getByRole('link', { name: 'Septic permit', exact: true }).count()).toBe(0);
  });

  it('shows what lapses, with the day in words', async () => {
    await page.getByText(/^Lapsing or lapsed \d+$/).click();
    await page.getByText('lapses 19 Apr 2026').waitFor();
  });

  it('remembers how the cards stand', async () => {
    await page.getByText(/^All \d+$/).click();
    await page.getByText('By date', { exact: true }).click();
    await page.getByRole('heading', { level: 2, name: /April 2026/ }).waitFor();
    await page.reload();
    await page.getByRole('heading', { level: 2, name: /April 2026/ }).waitFor();
    await page.getByText('By office', { exact: true }).click();
    await page.getByRole('heading', { level: 2, name: /Brindlemoor Addressing Desk/ }).waitFor();
  });

  it('comes back from a paper to where it was left', async () => {
    const depth = (): Promise<number> => page.evaluate(() => window.scrollY);
    await page.mouse.move(640, 500);
    await page.mouse.wheel(0, 900);
    await expect.poll(depth).toBe(900);
    await page.getByRole('article').getByRole('link', { name: 'Septic permit', exact: true }).focus();
    const left = await depth();
    await page.keyboard.press('Enter');
    await headed(page, 'Septic permit');
    await page.goBack();
    await headed(page, 'Papers');
    await expect.poll(depth).toBe(left);
    await page.evaluate(() => window.scrollTo(0, 0));
  });

  it('takes a wanted paper out of the way with a reason, and back', async () => {
    await page.getByRole('button', { name: "Drinking water test doesn't apply here" }).click();
    const slip = page.getByRole('dialog');
    const say = slip.getByRole('button', { name: 'It doesn’t apply' });
    expect(await say.isDisabled()).toBe(true);
    await slip.getByRole('textbox').fill('The clerk told us a test is not asked for here.');
    await say.click();
    const card = page
      .getByRole('article')
      .filter({ has: page.getByRole('heading', { name: 'Drinking water test', exact: true }) });
    await card.getByText("doesn't apply").waitFor();
    await undone(page);
    await card.getByText('not asked for').waitFor();
  });
});

describe('one paper', () => {
  let open: OpenWindow;
  let page: Page;
  beforeAll(async () => {
    open = await openWindow({ sample: true });
    page = await open.openSample('papers');
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  it('opens from its card and turns its pages with the keyboard alone', async () => {
    await page.getByRole('radio', { name: 'By office' }).focus();
    await page.keyboard.press('ArrowRight');
    await page.getByRole('heading', { level: 2, name: /April 2026/ }).waitFor();
    const link = page.getByRole('link', { name: 'House plans', exact: true });
    await link.focus();
    await page.keyboard.press('Enter');
    await headed(page, 'House plans');
    await page.getByText('Page 1 of 12').waitFor();
    const first = page.getByRole('option', { name: 'Page 1', exact: true });
    await first.focus();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowDown');
    await page.getByText('Page 3 of 12').waitFor();
    await page.keyboard.press('End');
    await page.getByText('Page 12 of 12').waitFor();
    expect(await axeFindings(page)).toEqual([]);
  });

  it('opens at the page the address names', async () => {
    const edition = await page.getByRole('link', { name: /2\. revision B, 9 Mar 2026/ }).getAttribute('href');
    await open.go(`${edition ?? ''}/5`);
    await page.getByText('Page 5 of 12').waitFor();
  });

  it('names the editions in order, which one counts, and why the older one does not', async () => {
    await page.getByRole('link', { name: /1\. revision A, 8 Dec 2025/ }).click();
    await page.getByText('It doesn’t count any more: a newer edition, issued 9 Mar 2026, replaces it.').waitFor();
    await page.getByRole('link', { name: /2\. revision B, 9 Mar 2026/ }).click();
    await page.getByText(/^It counts: it is the newest/).waitFor();
  });

  it('corrects what was noted, only where it can be read, and takes it back', async () => {
    await page.getByRole('button', { name: 'Correct', exact: true }).click();
    const slip = page.getByRole('dialog');
    const correct = slip.getByRole('button', { name: 'Correct it' });
    await slip.getByRole('textbox', { name: 'Bedrooms' }).fill('three');
    await slip.getByText('"three" can\'t be read as a count.').waitFor();
    expect(await correct.isDisabled()).toBe(true);
    expect(await axeFindings(page)).toEqual([]);
    await slip.getByRole('textbox', { name: 'Bedrooms' }).fill('3');
    await slip.getByRole('textbox', { name: 'Number', exact: true }).fill('OD-77');
    await correct.click();
    const card = page.getByRole('complementary', { name: 'Record card' });
    await card.getByRole('definition').getByText('OD-77', { exact: true }).waitFor();
    await undone(page);
    await card.getByText('not noted').first().waitFor();
    expect(await card.getByRole('definition').getByText('OD-77', { exact: true }).count()).toBe(0);
  });

  // "Tick what it bears, looking at the sheet" stood over the sheet, and its kind could not be corrected at all.
  it('keeps the sheet in sight meanwhile, and says why the kind of a tied edition stays', async () => {
    await page.getByRole('button', { name: 'Correct', exact: true }).click();
    const slip = page.getByRole('dialog');
    const sheet = slip.getByRole('region', { name: 'Pages of House plans' });
    const [seen, lines] = [await sheet.boundingBox(), await slip.getByLabel('Bedrooms').boundingBox()];
    if (seen === null || lines === null) throw new Error('The sheet is not in sight.');
    expect(seen.width).toBeGreaterThan(400);
    expect(seen.x + seen.width).toBeLessThanOrEqual(lines.x);
    expect(await axeFindings(page)).toEqual([]);
    await slip.getByRole('combobox', { name: 'What is it?' }).fill('energy rep');
    await page.getByRole('option', { name: /^Energy report/ }).click();
    await slip.getByRole('textbox', { name: 'Bedrooms' }).waitFor({ state: 'detached' });
    await slip.getByRole('button', { name: 'Correct it' }).click();
    await slip
      .getByRole('alert')
      .getByText(/so its kind can.t be changed alone/)
      .waitFor();
    await page.keyboard.press('Escape');
    await slip.waitFor({ state: 'detached' });
  });

  it('gives a paper its right kind, and takes that back', async () => {
    const here = page.url().slice(page.url().indexOf('#'));
    await open.go('#/sample/papers/deed');
    await page.getByRole('button', { name: 'Correct', exact: true }).click();
    const slip = page.getByRole('dialog');
    await slip.getByRole('combobox', { name: 'What is it?' }).fill('something');
    await page.getByRole('option', { name: /^Something else/ }).click();
    await slip.getByLabel('What it is called').fill('Deed of the neighbour');
    await slip.getByRole('button', { name: 'Correct it' }).click();
    await page.getByText(/^Corrected Deed\. Not carried over/).waitFor();
    await page.getByRole('heading', { name: 'Deed of the neighbour', level: 1 }).waitFor();
    await page.getByRole('button', { name: /^Undo: Corrected Deed/ }).click();
    await page.getByText(/^Taken back: Corrected Deed/).waitFor();
    await page.getByRole('heading', { name: 'Deed', level: 1, exact: true }).waitFor();
    await open.go(here);
    await page.getByRole('heading', { name: 'House plans', level: 1, exact: true }).waitFor();
  });

  it('records what an office did with it', async () => {
    await page.getByRole('button', { name: 'An office acted' }).click();
    const slip = page.getByRole('dialog');
    await slip.getByRole('button', { name: /Which office/ }).click();
    await page.getByRole('option', { name: 'Brindlemoor Permit Desk' }).click();
    await slip.getByText('approved', { exact: true }).click();
    await slip.getByRole('button', { name: 'Note it' }).click();
    const card = page.getByRole('complementary', { name: 'Record card' });
    await card.getByText('14 Apr 2026: Brindlemoor Permit Desk approved it.').waitFor();
    await card.getByText('It counts: Brindlemoor Permit Desk approved it on 14 Apr 2026.').waitFor();
  });

  it('saves the very bytes that came in', async () => {
    const link = page.getByRole('link', { name: /^Save Lindqvist House rev B/ });
    const [download] = await Promise.all([page.waitForEvent('download'), link.click()]);
    expect(download.suggestedFilename()).toBe('Lindqvist House rev B FULL SET (2).pdf');
  });

  it('lists the papers of a kind kept once per firm', async () => {
    await open.go('#/sample/papers/liability-certificate');
    await page.getByRole('link', { name: 'Certificate of liability insurance' }).first().waitFor();
    expect(await page.getByRole('article').count()).toBe(3);
  });
});

describe('removing a private file for good', () => {
  it('says what is lost and asks twice; then nobody finds it', async () => {
    await using open = await openWindow({ sample: true, dark: true });
    const page = await open.openSample('papers/owner-id');
    await headed(page, 'Copy of photo id');
    expect(await axeFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'Remove its file for good' }).click();
    const slip = page.getByRole('dialog');
    const remove = slip.getByRole('button', { name: 'Remove IMG_3877.JPG for good' });
    await slip.getByText('It can’t be taken back.').waitFor();
    expect(await remove.isDisabled()).toBe(true);
    await slip.getByRole('textbox', { name: 'Why it has to go' }).fill('The number is on it.');
    expect(await remove.isDisabled()).toBe(true);
    await slip.getByText('I know that nobody can bring it back.').click();
    expect(await axeFindings(page)).toEqual([]);
    await remove.click();
    await headed(page, 'Papers');
    await open.go('#/sample/papers/owner-id');
    await page.getByText('The pages of this edition are no longer in the lot.').waitFor();
  });
});
