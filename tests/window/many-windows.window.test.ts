import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { openWindow } from './harness.ts';

const rename = async (page: Page, title: string): Promise<void> => {
  await page.getByRole('button', { name: 'change name or day' }).click();
  await page.getByRole('textbox', { name: 'What do you call the lot?' }).fill(title);
  await page.getByRole('button', { name: 'Note it' }).click();
};

// A browser allows six connections to one host.
it('seven windows of one browser all go on: they share one stream, and the next takes over when the one that hears is closed', async () => {
  await using open = await openWindow({ sample: true });
  await open.openSample('lot');
  const windows = [open.page];
  for (let n = 1; n < 7; n += 1) {
    const page = await open.context.newPage();
    await page.goto(open.page.url());
    await page.getByRole('heading', { name: 'Heron Lane' }).waitFor();
    windows.push(page);
  }
  await rename(windows[6] ?? open.page, 'Heron Lane house');
  for (const page of windows) await page.getByRole('heading', { level: 1, name: 'Heron Lane house' }).waitFor();
  // The first window hears for all; when it goes, another one does.
  const [, second, ...rest] = windows;
  await open.page.close();
  await rename(rest[0] ?? open.page, 'Heron Lane again');
  for (const page of [second, ...rest])
    await page?.getByRole('heading', { level: 1, name: 'Heron Lane again' }).waitFor();
  // And all of them hear that the host went away and came back.
  await open.stopHost();
  for (const page of rest) await page.getByText('The Lotfile program has stopped answering.').waitFor();
  await open.startHost();
  for (const page of rest) {
    await page.getByText('The Lotfile program has stopped answering.').waitFor({ state: 'detached' });
  }
  expect(rest).toHaveLength(5);
});
