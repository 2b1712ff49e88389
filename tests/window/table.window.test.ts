import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PDFDocument } from 'pdf-lib';
import type { Locator, Page } from 'playwright-core';
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

const samples = join(import.meta.dirname, '..', '..', 'sample-project', 'papers');
const sample = (name: string): string => join(samples, name);

const listed = (page: Page): Locator => page.getByRole('navigation', { name: 'On the table' });
const item = (page: Page, name: string): Locator => listed(page).getByRole('button', { name });
const card = (page: Page): Locator => page.getByRole('region', { name: 'Record card' });
const keep = (page: Page): Locator => card(page).getByRole('button', { name: 'Keep', exact: true });

async function layDown(page: Page, ...names: readonly string[]): Promise<void> {
  await page.locator('input[type=file]').first().setInputFiles(names.map(sample));
  for (const name of names) await item(page, name).waitFor();
}

/** Says what it is with the keyboard: a few letters, down, Enter. */
async function sayKind(page: Page, letters: string, title: string): Promise<void> {
  const box = page.getByRole('combobox', { name: 'What is it?' });
  await box.focus();
  await page.keyboard.type(letters);
  await page.getByRole('option', { name: title }).first().waitFor();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await expect.poll(() => box.inputValue()).toBe(title);
}

async function sayDay(page: Page, label: string, digits: string): Promise<void> {
  await card(page).getByRole('group', { name: label }).getByRole('spinbutton').first().focus();
  await page.keyboard.type(digits);
}

async function opened(): Promise<OpenWindow> {
  const open = await openWindow({ sample: true });
  await open.openSample('table');
  return open;
}

describe('laying papers on the table', () => {
  let open: OpenWindow;
  let page: Page;
  beforeAll(async () => {
    open = await opened();
    page = open.page;
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  it('teaches, while it is clear, how papers get here', async () => {
    await page.getByRole('heading', { name: 'The table is clear' }).waitFor();
    await page.getByText('Drop files anywhere in this window').waitFor();
    expect(await axeBoth(page)).toEqual([]);
  });

  it('takes several files at once and shows photos and PDFs large', async () => {
    await layDown(page, 'IMG_3877.JPG', 'permit card.pdf', 'septic final.pdf');
    await item(page, 'permit card.pdf').click();
    await page.getByText('Page 1 of 1').waitFor();
    await item(page, 'IMG_3877.JPG').click();
    const photo = page.getByRole('img', { name: 'IMG_3877.JPG' });
    await photo.waitFor();
    await expect
      .poll(() => photo.evaluate((image) => image instanceof HTMLImageElement && image.naturalWidth))
      .toBeGreaterThan(500);
    expect(await axeBoth(page)).toEqual([]);
  });

  it('tells which bytes are kept already, as what', async () => {
    await card(page).getByText('is kept already, byte for byte, as Copy of photo id').waitFor();
  });

  it('puts a file aside and says where it is', async () => {
    await card(page).getByRole('button', { name: 'Put aside' }).click();
    await page.getByText('IMG_3877.JPG is put aside').waitFor();
    await item(page, 'IMG_3877.JPG').waitFor({ state: 'detached' });
  });

  it('keeps a paper with the keyboard alone, goes on to the next, and takes it back', async () => {
    await item(page, 'permit card.pdf').focus();
    await page.keyboard.press('Enter');
    await keep(page).and(page.locator('[disabled]')).waitFor();
    await sayKind(page, 'building permit c', 'Building permit card');
    await sayDay(page, 'Issued', '04102026');
    await card(page).getByRole('textbox', { name: 'Number', exact: true }).focus();
    await page.keyboard.type('BP-26-0412');
    expect(await axeBoth(page)).toEqual([]);
    await keep(page).focus();
    await page.keyboard.press('Enter');
    const told = page.getByRole('status').filter({ hasText: 'Kept:' });
    await told.getByRole('link', { name: 'Building permit card' }).waitFor();
    await item(page, 'permit card.pdf').waitFor({ state: 'detached' });
    await item(page, 'septic final.pdf').and(page.locator('[aria-current]')).waitFor();
    expect(await page.evaluate(() => document.activeElement?.textContent)).toContain('What came in');
    await told.getByRole('button', { name: 'Undo' }).click();
    await item(page, 'permit card.pdf').waitFor();
  });

  it('makes one paper of several files, in the order given', async () => {
    await item(page, 'septic final.pdf').click();
    await card(page).getByRole('button', { name: 'Other files belong to it, too' }).click();
    await card(page).getByRole('checkbox', { name: 'permit card.pdf' }).click({ force: true });
    await card(page).getByRole('button', { name: 'Move permit card.pdf up' }).click();
    await item(page, 'permit card.pdf').getByText('1 of 2').waitFor();
    await sayKind(page, 'something', 'Something else');
    await card(page).getByRole('textbox', { name: 'Its title' }).fill('Two sheets');
    await keep(page).click();
    await page.getByRole('status').getByRole('link', { name: 'Two sheets' }).click();
    await page.getByRole('heading', { level: 1, name: 'Two sheets' }).waitFor();
    await page.getByText('Page 1 of 2').waitFor();
    const saved = await page.getByRole('link', { name: /^Save / }).allTextContents();
    expect(saved).toEqual(['Save permit card.pdf', 'Save septic final.pdf']);
  });
});

describe('what the table knows of the lot', () => {
  let open: OpenWindow;
  let page: Page;
  beforeAll(async () => {
    open = await opened();
    page = open.page;
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  it('asks whose it is where a kind is kept per firm, and notes a new firm on the way', async () => {
    await layDown(page, 'electric licence.pdf');
    await sayKind(page, 'contractor', 'Contractor licence');
    await card(page).getByText('Say whose it is.').waitFor();
    await card(page).getByRole('button', { name: 'A firm that isn’t listed' }).click();
    await card(page).getByRole('textbox', { name: 'Firm, as printed on its papers' }).fill('Larkmoor Roofing');
    await card(page).getByRole('textbox', { name: 'Trade' }).fill('roofing');
    await card(page).getByRole('button', { name: 'Note this firm' }).click();
    await card(page)
      .getByRole('button', { name: /Larkmoor Roofing.*Whose is it/ })
      .waitFor();
    await keep(page).click();
    await page.getByRole('status').getByRole('link', { name: 'Contractor licence' }).click();
    await page
      .getByText(/Larkmoor Roofing/)
      .first()
      .waitFor();
  });

  it('keeps a newer edition of what is there: it replaces it, and the older one says so', async () => {
    await open.go('#/sample/papers/septic-permit');
    await page.getByRole('link', { name: 'Keep a newer one' }).click();
    await page.getByText('What you lay down now is: Septic permit.').waitFor();
    await layDown(page, 'septic final.pdf');
    await card(page)
      .getByRole('radio', { name: 'It replaces it' })
      .and(page.locator(':checked'))
      .waitFor({ state: 'attached' });
    await sayDay(page, 'Issued', '04132026');
    await card(page).getByRole('textbox', { name: 'Bedrooms' }).fill('4');
    await keep(page).click();
    await page.getByRole('status').getByRole('link', { name: 'Septic permit' }).click();
    await page.getByText(/^It counts: it is the newest/).waitFor();
    await page.getByRole('link', { name: /1\. EH-24-0317/ }).click();
    await page.getByText('It doesn’t count any more').waitFor();
  });

  it('leaves a file it can’t keep on the table, with the reason', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'lotfile-bad-'));
    const bad = join(folder, 'torn.pdf');
    writeFileSync(bad, '%PDF-1.7\nthis is no PDF at all\n');
    await open.go('#/sample/table');
    await page.locator('input[type=file]').first().setInputFiles(bad);
    await item(page, 'torn.pdf').waitFor();
    // Only now: the browser reads the file when it is sent.
    rmSync(folder, { recursive: true });
    await sayKind(page, 'utility', 'Utility-locate ticket');
    await keep(page).click();
    await card(page).getByRole('alert').waitFor();
    expect(await card(page).getByRole('alert').textContent()).toContain('torn.pdf');
    await item(page, 'torn.pdf').waitFor();
  });

  it('asks for the password of a locked file, and keeps it once it is given', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'lotfile-locked-'));
    const locked = join(folder, 'locked.pdf');
    const document = await PDFDocument.create();
    document.addPage().drawText('Deed book 4711');
    document.encrypt({ userPassword: 'heron-lender-77', ownerPassword: 'owner' });
    writeFileSync(locked, await document.save());
    await page.locator('input[type=file]').first().setInputFiles(locked);
    await item(page, 'locked.pdf').click();
    rmSync(folder, { recursive: true });
    await page.getByText('This PDF is locked').waitFor();
    // Asked for before anything is typed: its dates are read off its pages, not typed blind.
    const password = card(page).getByRole('textbox', { name: 'The password it opens with' });
    await password.fill('heron');
    await card(page).getByRole('button', { name: 'Open it' }).click();
    await card(page).getByText('does not open with this password').waitFor();
    await password.fill('heron-lender-77');
    await password.press('Enter');
    await page.getByRole('region', { name: 'locked.pdf' }).getByText('Page 1 of 1').waitFor();
    await password.waitFor({ state: 'detached' });
    await sayKind(page, 'deed', 'Deed');
    await keep(page).click();
    await page.getByRole('status').getByRole('link', { name: 'Deed' }).waitFor();
    await item(page, 'locked.pdf').waitFor({ state: 'detached' });
  });

  it('notes a paper that is held on paper only', async () => {
    await listed(page).getByRole('button', { name: 'A paper you hold on paper only' }).click();
    await sayKind(page, 'notice of', 'Notice of commencement');
    await keep(page).click();
    await page.getByRole('status').getByRole('link', { name: 'Notice of commencement' }).click();
    await page.getByRole('heading', { name: 'Held on paper only' }).waitFor();
  });

  it('shows what was put aside, and takes it up again', async () => {
    await open.go('#/sample/table');
    await item(page, 'torn.pdf').click();
    await card(page).getByRole('button', { name: 'Put aside' }).click();
    await item(page, 'torn.pdf').waitFor({ state: 'detached' });
    await page.getByText('Put aside: 1', { exact: true }).click();
    await page.locator('.table-aside').getByText('torn.pdf').waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'Take up torn.pdf' }).click();
    await item(page, 'torn.pdf').waitFor();
    expect(await page.locator('.table-aside').count()).toBe(0);
  });

  it('takes files dropped anywhere in the window to the table', async () => {
    await open.openSample('today');
    const session = await page.context().newCDPSession(page);
    const data = { items: [], files: [sample('water lab report.pdf')], dragOperationsMask: 1 };
    await session.send('Input.dispatchDragEvent', { type: 'dragEnter', x: 600, y: 400, data });
    await session.send('Input.dispatchDragEvent', { type: 'dragOver', x: 600, y: 400, data });
    await page.getByText('Let go: it comes on the table').waitFor();
    await session.send('Input.dispatchDragEvent', { type: 'drop', x: 600, y: 400, data });
    await item(page, 'water lab report.pdf').waitFor();
    expect(page.url()).toContain('/table');
  });
});
