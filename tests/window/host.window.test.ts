import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFindings, type OpenWindow, openWindow } from './harness.ts';

describe('two windows on one lot, and a host that goes and comes back', () => {
  let open: OpenWindow;
  beforeAll(async () => {
    open = await openWindow({ sample: true });
    await open.openSample('lot');
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  it('shows in one window what was done in the other', async () => {
    const other = await open.context.newPage();
    await other.goto(open.page.url());
    await other.getByRole('heading', { name: 'Heron Lane' }).waitFor();
    await other.getByRole('button', { name: 'change name or day' }).click();
    await other.getByRole('textbox', { name: 'What do you call the lot?' }).fill('Heron Lane house');
    await other.getByRole('button', { name: 'Note it' }).click();
    await open.page.getByRole('heading', { name: 'Heron Lane house' }).waitFor();
    await other.close();
    // The lot stays open for the window that is left.
    await open.page.getByRole('button', { name: 'Add a firm' }).click();
    await open.page.getByRole('textbox', { name: 'Firm, as on its licence' }).fill('Tern Electric');
    await open.page.getByRole('textbox', { name: 'Trade' }).fill('electrical');
  });

  it('says so when the host stops, keeps what was typed, and goes on when it is back', async () => {
    const { page } = open;
    await open.stopHost();
    await page.getByText('The Lotfile program has stopped answering.').waitFor();
    await open.startHost();
    await page.getByText('The Lotfile program has stopped answering.').waitFor({ state: 'detached' });
    expect(await page.getByRole('textbox', { name: 'Firm, as on its licence' }).inputValue()).toBe('Tern Electric');
    await page.getByRole('button', { name: 'Note the firm' }).click();
    await page.getByText('Tern Electric, electrical: noted.').waitFor();
    await page.locator('.lot-rows').getByText('Tern Electric').waitFor();
  });
});

describe('reading as one likes', () => {
  it('holds at 200% letters, dark, without anything running out of the window', async () => {
    await using open = await openWindow({ sample: true, dark: true });
    const page = await open.openSample('lot');
    await page.getByRole('button', { name: 'Marks and reading' }).click();
    await page.getByText('200%', { exact: true }).click();
    await page.getByRole('button', { name: 'Close' }).click();
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    const tooWide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(tooWide).toBeLessThanOrEqual(0);
    expect(await page.evaluate(() => getComputedStyle(document.documentElement).fontSize)).toBe('32px');
    expect(await axeFindings(page)).toEqual([]);
  });

  it('reaches every screen by keyboard, the heading first', async () => {
    await using open = await openWindow({ sample: true });
    const page = await open.openSample('lot');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('sheet');
    await page.keyboard.press('/');
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('find');
    const links = page.getByRole('navigation', { name: 'Contents' }).getByRole('link');
    for (const link of await links.all()) {
      await link.focus();
      await page.keyboard.press('Enter');
      await page.waitForFunction(() => document.activeElement?.id === 'sheet');
      await page.locator('main.screen h1').waitFor();
    }
  });
});

describe.each([false, true])('every screen, dark %s', (dark) => {
  it('has nothing axe would object to at WCAG 2.2 AA', async () => {
    await using open = await openWindow({ sample: true, dark });
    const page = await open.openSample('today');
    const screens = [
      'today',
      'way',
      'errand/permit-apply',
      'papers',
      'table',
      'lot',
      'inspections',
      'offices',
      'practice',
      'history',
      'find/septic',
    ];
    for (const screen of screens) {
      await open.go(`#/sample/${screen}`);
      await page.locator('main.screen h1').waitFor();
      await page.locator('.waiting').first().waitFor({ state: 'detached' });
      expect(await axeFindings(page), screen).toEqual([]);
    }
  });
});
