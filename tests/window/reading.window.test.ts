import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PDFDocument, StandardFonts } from 'pdf-lib';
import type { Locator, Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFindings, type OpenWindow, openWindow } from './harness.ts';

const samples = join(import.meta.dirname, '..', '..', 'sample-project', 'papers');

/** Sheets as pictures at 150 dots an inch; an empty text is a blank back side. */
async function writeScan(path: string, pages: readonly string[]): Promise<void> {
  const document = await PDFDocument.create();
  for (const text of pages) {
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="1275" height="1650"><rect width="100%" height="100%" fill="white"/><text x="150" y="300" font-family="sans-serif" font-size="44">${text}</text></svg>`;
    const picture = await document.embedJpg(await sharp(Buffer.from(svg)).grayscale().jpeg().toBuffer());
    document.addPage([612, 792]).drawImage(picture, { x: 0, y: 0, width: 612, height: 792 });
  }
  writeFileSync(path, await document.save());
}

/** Two papers as a scanner's tray gives them: the second begins on page 3. */
async function writeTray(path: string): Promise<void> {
  const document = await PDFDocument.create();
  const font = await document.embedFont(StandardFonts.Helvetica);
  const sheet = (title: string, number: string): string =>
    `${title}\n\nPermit No.: ${number}\n\nDate Issued: 03/02/2026\n\nThe work shall follow the plans.`;
  for (const text of [sheet('SEPTIC PERMIT', 'EH-26-0417'), 'NOTES\n\nKeep it.', sheet('DRIVEWAY PERMIT', 'DW-118')])
    document.addPage([612, 792]).drawText(text, { x: 72, y: 700, size: 14, font });
  writeFileSync(path, await document.save());
}

describe('what is read on the table', () => {
  let open: OpenWindow;
  let page: Page;
  const card = (): Locator => page.getByRole('region', { name: 'Record card' });
  const item = (name: string): Locator =>
    page.getByRole('navigation', { name: 'On the table' }).getByRole('button', { name });
  const lay = async (path: string, name: string): Promise<void> => {
    await page.locator('input[type=file]').first().setInputFiles(path);
    await item(name).click();
  };
  beforeAll(async () => {
    open = await openWindow({ sample: true });
    page = await open.openSample('table');
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  it('stands beside the fields, none of it filled in, and is marked on the page', async () => {
    await lay(join(samples, 'septic final.pdf'), 'septic final.pdf');
    await card().getByText('Reads like: Septic system final approval').waitFor();
    expect(await card().getByRole('textbox', { name: 'Number', exact: true }).inputValue()).toBe('');
    // The page is drawn in its own time; its marks come with it.
    await expect.poll(() => page.locator('.reader-read').count()).toBeGreaterThan(2);
    expect(await axeFindings(page)).toEqual([]);
  });

  it('is taken all that is sure in one go, and the rest one by one, looking where it stands', async () => {
    await card()
      .getByRole('button', { name: /Take all \d entries that are sure/ })
      .click();
    await expect
      .poll(() => page.getByRole('combobox', { name: 'What is it?' }).inputValue())
      .toBe('Septic system final approval');
    const number = card().getByRole('textbox', { name: 'Number', exact: true });
    expect(await number.inputValue()).toBe('');
    await card()
      .getByRole('button', { name: /where EH-24-0317 stands/ })
      .click();
    await page.locator('.reader-place').waitFor();
    await card()
      .getByRole('button', { name: /Take it: EH-24-0317/ })
      .click();
    await expect.poll(() => number.inputValue()).toBe('EH-24-0317');
  });

  it('one key keeps it and goes on', async () => {
    await page.keyboard.press('Control+Enter');
    await page.getByRole('status').filter({ hasText: 'Kept:' }).waitFor();
    await page.getByRole('heading', { name: 'The table is clear' }).waitFor();
  });

  it('one scan is split by ticking pages, the blank back side offered for leaving out', async () => {
    const path = join(open.folder, 'three.pdf');
    await writeScan(path, ['Letter of the surveyor', '', 'Letter of the bank']);
    await lay(path, 'three.pdf');
    const pages = card().getByRole('region', { name: 'Pages of three.pdf' });
    await pages.getByText('blank', { exact: true }).waitFor();
    await pages.getByRole('checkbox', { name: '3' }).click({ force: true });
    await pages.getByRole('button', { name: 'Leave out what is blank: 2' }).click();
    expect(await pages.getByLabel('Pages of this paper').inputValue()).toBe('1');
    expect(await axeFindings(page)).toEqual([]);
    await page.getByRole('combobox', { name: 'What is it?' }).fill('something');
    await page.getByRole('option', { name: /Something else/ }).click();
    await card().getByLabel('Its title').fill('Letter of the surveyor');
    await page.keyboard.press('Control+Enter');
    await item('three.pdf').getByText('page 3 still to keep').waitFor();
    await expect.poll(() => pages.getByLabel('Pages of this paper').inputValue()).toBe('3');
    await pages.getByText('1: kept as Letter of the surveyor').waitFor();
  });

  it('one scan of several papers is offered as its parts, and taken up one by one with one key', async () => {
    const path = join(open.folder, 'tray.pdf');
    await writeTray(path);
    await lay(path, 'tray.pdf');
    const cuts = card().getByRole('region', { name: 'Papers in this scan' });
    await cuts.getByText('This looks like 2 papers:').waitFor();
    await cuts.getByText('page 3: Driveway').waitFor();
    await cuts.getByText('It reads “DRIVEWAY PERMIT”.').waitFor();
    expect(await axeFindings(page)).toEqual([]);
    const pages = card().getByRole('region', { name: 'Pages of tray.pdf' }).getByLabel('Pages of this paper');
    expect(await pages.inputValue()).toBe('');
    await cuts.getByRole('button', { name: 'Keep them one by one' }).press('Enter');
    await expect.poll(() => pages.inputValue()).toBe('1-2');
    const kind = page.getByRole('combobox', { name: 'What is it?' });
    await expect.poll(() => kind.inputValue()).toBe('Septic permit');
    // What is filled in for one part stays with it, while the card turns to another and back.
    const number = card().getByRole('textbox', { name: 'Number', exact: true });
    await number.fill('EH-26-0417');
    await cuts.getByRole('button', { name: /Fill in page 3: Driveway/ }).click();
    await expect.poll(() => pages.inputValue()).toBe('3');
    expect(await number.inputValue()).toBe('');
    await cuts.getByRole('button', { name: /Fill in pages 1-2/ }).click();
    await expect.poll(() => number.inputValue()).toBe('EH-26-0417');
    // Each part can be changed before it is kept.
    await pages.fill('1');
    await page.keyboard.press('Control+Enter');
    await cuts.getByText('2 of 2 papers are still to be kept').waitFor();
    // It was kept without its date: told at once, with where to add it.
    const told = page.getByRole('status').filter({ hasText: 'Nobody can say how long it is good' });
    await told.getByRole('link', { name: 'Add the date on its sheet' }).waitFor();
    // Its number was given: that is not missed.
    expect(await told.getByText('Kept without its number').count()).toBe(0);
    await expect.poll(() => pages.inputValue()).toBe('2');
    expect(await number.inputValue()).toBe('');
    await cuts.getByRole('button', { name: /Fill in page 3: Driveway/ }).click();
    await expect.poll(() => pages.inputValue()).toBe('3');
    await expect.poll(() => kind.inputValue()).toMatch(/Driveway/);
    await page.keyboard.press('Control+Enter');
    await cuts.getByText('1 of 2 papers is still to be kept').waitFor();
    // The file turns to what is on the card.
    await page.getByText('Page 2 of 3').waitFor();
    // What is kept already is not kept again; and there is a way back.
    await cuts.getByRole('button', { name: 'The rest is one paper' }).click();
    await cuts.getByText('The rest is taken as one.').waitFor();
    expect(await pages.inputValue()).toBe('2');
    expect(await axeFindings(page)).toEqual([]);
    await cuts.getByRole('button', { name: 'It is several after all' }).click();
    await cuts.getByRole('button', { name: 'Keep them one by one' }).waitFor();
    await card().getByRole('button', { name: 'Put aside' }).click();
  });

  it('a file that another program puts into the folder shows itself', async () => {
    await writeScan(join(open.places.config, 'sample', 'lot', 'table', 'from phone.pdf'), ['Sent from the phone']);
    await item('from phone.pdf').waitFor();
  });

  // Fixed bug: the window said nothing of a number that one of the county's forms has a box for.
  it('what is kept without its number says for what it will be missed', async () => {
    await item('from phone.pdf').click();
    const kind = page.getByRole('combobox', { name: 'What is it?' });
    await kind.focus();
    await page.keyboard.type('well permit');
    await page.getByRole('option', { name: 'Well permit' }).first().waitFor();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await card().getByRole('button', { name: 'Keep', exact: true }).click();
    const told = page.getByRole('status').filter({ hasText: 'Kept without its number' });
    await told.getByText('It will be missed for: Application to Build a Dwelling, form BD 7').waitFor();
    await told.getByRole('link', { name: 'Add the number on its sheet' }).waitFor();
    expect(await axeFindings(page)).toEqual([]);
  });
});
