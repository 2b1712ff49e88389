import { expect, it } from 'vitest';
import { openWindow } from './harness.ts';

it('a trouble stands where it was told, in no slip opened after it, and goes with its page', async () => {
  await using open = await openWindow({ sample: true });
  const page = await open.openSample('history');
  await page.getByRole('button', { name: 'Take back: Kept House plans', exact: true }).first().click();
  const trouble = page.locator('.trouble-told');
  await trouble.getByText(/can't be undone: ".+" rests? on it|changed again later by/).waitFor();
  await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Put my dates into my calendar' }).click(),
  ]);
  const slip = page.getByRole('dialog', { name: 'Your dates' });
  await slip.getByText('It is the first file.').waitFor();
  expect(await slip.locator('.trouble-told').count()).toBe(0);
  await page.keyboard.press('Escape');
  await trouble.waitFor();
  await open.go('#/sample/today');
  await trouble.waitFor({ state: 'detached' });
  await open.go('#/');
  await page.getByRole('heading', { level: 1 }).waitFor();
  expect(await trouble.count()).toBe(0);
});
