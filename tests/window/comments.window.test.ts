import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFindings, type OpenWindow, openWindow, sampleDay } from './harness.ts';

describe('comments an office sent back', () => {
  let open: OpenWindow;
  beforeAll(async () => {
    open = await openWindow({ sample: true });
    const { folder } = await open.host.sampleLot();
    const { lot } = await open.host.desk.ask('open-lot', { folder });
    const comments = ['Show the holdown at the garage wall.', 'State the design wind speed.'];
    const visit = {
      errand: 'permit-apply',
      day: '2026-04-08',
      state: 'sent back',
      comments,
      due: '2026-05-08',
    } as const;
    await open.host.desk.ask('visit', visit, { lot, on: sampleDay });
    await open.openSample('offices');
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  it('stand by number with their deadline, take the office’s own number, and one more can be noted', async () => {
    const { page } = open;
    const first = page.locator('.office-comments li').first();
    await first.getByText('answer by 8 May 2026').waitFor();
    await page.getByText(/2 comments wait for your answer; they want it by 8 May 2026/).waitFor();
    await page.getByRole('button', { name: 'Change comment 1' }).click();
    await page.getByLabel('Their number').fill('S-3');
    await page.getByRole('button', { name: 'Note it' }).click();
    await page.getByText('S-3. Show the holdown').waitFor();
    await page.getByRole('button', { name: /^One more comment on/ }).click();
    await page.getByLabel('Their words').fill('Sign every sheet.');
    expect(await axeFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'Note it' }).click();
    await page.getByText('3. Sign every sheet.').waitFor();
  });

  it('are closed with the paper that shows it, and the response is handed out', async () => {
    const { page } = open;
    await page.getByRole('button', { name: 'Answer comment S-3' }).click();
    const slip = page.getByRole('dialog');
    await slip.getByLabel('What was done about it').fill('Sheet S2 shows it.');
    await slip.getByRole('button', { name: /The paper that shows it/ }).click();
    await page.getByRole('option', { name: /^House plans/ }).click();
    await slip.getByRole('button', { name: 'Note the answer' }).click();
    const answered = page.locator('.office-comments li').first();
    await answered.getByText('answered 14 Apr 2026: Sheet S2 shows it.').waitFor();
    await answered.getByRole('link', { name: 'House plans' }).waitFor();
    expect(await axeFindings(page)).toEqual([]);
    const [response] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: /^Save the response to/ }).click(),
    ]);
    expect(response.suggestedFilename()).toMatch(/^response-permit-apply.*\.pdf$/);
  });

  it('stay on the errand as what came of it, with what answered them, and the find line leads there', async () => {
    const { page } = open;
    await open.go('#/sample/find/holdown%20garage');
    const found = page.locator('.find-place', { hasText: 'Show the holdown' });
    await found.getByText('sent back on 8 Apr 2026').waitFor();
    await page.locator('.find-entry', { hasText: 'Show the holdown' }).getByRole('link').first().click();
    await page.getByRole('button', { name: /visits? made/ }).click();
    const past = page.locator('.errand-past');
    await past.getByText('Wed 8 Apr 2026').waitFor();
    await past.getByText('Sheet S2 shows it.').waitFor();
    await past.getByText('State the design wind speed.').waitFor();
    expect(await axeFindings(page)).toEqual([]);
  });
});
