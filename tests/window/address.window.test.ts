import { expect, it } from 'vitest';
import { openWindow } from './harness.ts';

it('shows the lot that the address names, back and forward too', async () => {
  await using open = await openWindow({ sample: true });
  const page = await open.openSample('lot');
  await page.getByRole('button', { name: 'Another lot' }).click();
  await page.getByRole('textbox', { name: 'What do you call it?' }).fill('Miller Creek');
  await page.getByRole('button', { name: 'Begin' }).click();
  await page.getByRole('heading', { name: 'Miller Creek' }).waitFor();
  const mine = page.url();
  await page.goBack();
  await page.goBack();
  await page.waitForURL(/#\/sample\/lot/);
  await page.getByRole('heading', { level: 1, name: 'Heron Lane' }).waitFor();
  await page.getByText('All answered.').waitFor();
  await open.go(new URL(mine).hash);
  await page.getByRole('heading', { level: 1, name: 'Miller Creek' }).waitFor();
  await page.getByText('10 to answer.').waitFor();
});

it('says so where the address names a lot this computer does not know', async () => {
  await using open = await openWindow();
  await open.go('#/0123456789abcdef01234567/papers');
  await open.page.getByText('The lot this address names is not in this computer’s list').waitFor();
  await open.page.getByRole('heading', { name: 'Begin a new lot' }).waitFor();
  expect(open.page.url()).toMatch(/#\/$/);
});
