import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFindings, type OpenWindow, openWindow, sampleDay } from './harness.ts';

/** Records something in the open sample lot as another window would. */
async function record(open: OpenWindow, name: string, argument: object): Promise<void> {
  const { folder } = await open.host.sampleLot();
  const lot = await open.host.ask('open-lot', { folder }, {});
  if (!lot.ok || !('lot' in lot.answer)) throw new Error('The sample lot did not open.');
  const reply = await open.host.ask(name, argument, { lot: lot.answer.lot, on: sampleDay });
  if (!reply.ok) throw new Error(reply.error.message);
}

describe('the slip for the day', () => {
  let open: OpenWindow;
  beforeAll(async () => {
    open = await openWindow({ sample: true });
    await open.openSample('today');
    await open.page.getByRole('link', { name: 'Order the truss sheets' }).waitFor();
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  it('says what can be done today, where, and what to carry', async () => {
    const first = open.page.locator('.today-errand').first();
    // What rests on papers that speak against each other stands last, the ticket for digging before it.
    expect(await first.getByRole('heading').textContent()).toContain('Call for the locate ticket');
    const trusses = open.page.locator('.today-errand', { hasText: 'Order the truss sheets' });
    expect(await trusses.getByText('Truss maker').isVisible()).toBe(true);
    await trusses.getByRole('button', { name: /^Show what to carry/ }).click();
    expect(await trusses.getByRole('link', { name: 'House plans' }).isVisible()).toBe(true);
    expect(await trusses.getByText('They may question two things.').isVisible()).toBe(true);
    expect(await open.page.getByText('332 days to the day you hope to move in').isVisible()).toBe(true);
  });

  it('says before any trip what the papers say against each other', async () => {
    const { page } = open;
    await page.getByText(/things in your papers to put right; \w+ things? you can go on today/).waitFor();
    const amiss = page.locator('.today-amiss');
    await amiss.getByText('Bedrooms: 4 on "House plans", 3 on "Septic permit"').waitFor();
    const [above, below] = await Promise.all([
      amiss.boundingBox(),
      page.locator('.today-errand').first().boundingBox(),
    ]);
    expect(above?.y).toBeLessThan(below?.y ?? 0);
  });

  it('says what is waited for, what lapses before it is needed, and what may not be done yet', async () => {
    const { page } = open;
    await page.getByRole('heading', { name: 'You wait for' }).waitFor();
    expect(await page.getByText('since 31 Mar 2026, 14 days').isVisible()).toBe(true);
    expect(await page.getByText('"Builder\'s risk binder" lapses after Sun 19 Apr 2026').isVisible()).toBe(true);
    expect(await page.getByText('First: Call for the locate ticket.').isVisible()).toBe(true);
    expect(await axeFindings(page)).toEqual([]);
  });

  it('prints the slip alone, with everything to carry unfolded', async () => {
    const { page } = open;
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.margin').isVisible()).toBe(false);
    expect(await page.getByRole('button', { name: 'Print this slip' }).isVisible()).toBe(false);
    expect(await page.locator('.today-day').textContent()).toBe('Tue 14 Apr 2026');
    expect(await page.locator('.today-carry ul').first().isVisible()).toBe(true);
    await page.emulateMedia({ media: 'screen' });
  });

  it('takes note of what happened by keyboard, and tells what should have come first', async () => {
    const { page } = open;
    await page.getByRole('button', { name: 'Note what happened' }).focus();
    await page.keyboard.press('Enter');
    const slip = page.getByRole('dialog', { name: 'Something happened?' });
    await slip.waitFor();
    await slip.getByRole('button', { name: /What happened/ }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('option', { name: 'First digging (not yet)' }).waitFor();
    await page.keyboard.type('First dig');
    await page.keyboard.press('Enter');
    await slip.getByText('Something has to be settled before this').waitFor();
    await slip.getByRole('button', { name: 'Note it' }).focus();
    await page.keyboard.press('Enter');
    await slip.getByText('But something should have been settled before').waitFor();
    expect(await slip.locator('.finding').count()).toBeGreaterThan(0);
    expect(await axeFindings(page)).toEqual([]);
    await slip.getByRole('button', { name: 'Done' }).focus();
    await page.keyboard.press('Enter');
    await page.getByText('Before you dig').waitFor({ state: 'detached' });
    await page.getByRole('region', { name: 'Notices' }).getByRole('button', { name: 'Undo' }).click();
    await page.getByText('First: Call for the locate ticket.').waitFor();
  });

  it('puts what was sent back first, with their comments', async () => {
    await record(open, 'visit', {
      errand: 'driveway-apply',
      state: 'sent back',
      day: sampleDay,
      comments: ['Show the culvert pipe and its size.'],
    });
    const first = open.page.locator('.today-errand').first();
    await first.getByText('Show the culvert pipe and its size.').waitFor();
    expect(await first.getByRole('heading').textContent()).toContain('Apply for the driveway permit');
    expect(await first.getByText('sent back', { exact: true }).isVisible()).toBe(true);
  });
});

describe('the slip in other lights', () => {
  it('is clean in the dark', async () => {
    await using open = await openWindow({ sample: true, dark: true });
    await open.openSample('today');
    await open.page.getByRole('link', { name: 'Order the truss sheets' }).waitFor();
    expect(await axeFindings(open.page)).toEqual([]);
  });

  it('lays what comes first, the trips and the stub side by side in a wide window, in the order they are read', async () => {
    await using open = await openWindow({ sample: true, width: 1600, height: 1000 });
    const page = await open.openSample('today');
    await page.getByRole('link', { name: 'Order the truss sheets' }).waitFor();
    const parts = ['.today-first', '.today-trips', '.today-stub'];
    const boxes = await Promise.all(parts.map((part) => page.locator(part).boundingBox()));
    const [first, trips, stub] = boxes.map((box) => box ?? { x: 0, y: 0, width: 0, height: 0 });
    expect(first?.width).toBeGreaterThan(200);
    expect((first?.x ?? 0) + (first?.width ?? 0)).toBeLessThanOrEqual(trips?.x ?? 0);
    expect((trips?.x ?? 0) + (trips?.width ?? 0)).toBeLessThanOrEqual(stub?.x ?? 0);
    // Nothing left over at the right: the slip ends where every screen ends.
    const right = await page.locator('.today-slip').evaluate((slip) => slip.getBoundingClientRect().right);
    expect(1600 - right).toBeLessThan(60);
    const inDocument = await page.locator(parts.join(', ')).evaluateAll((all) => all.map((one) => `.${one.className}`));
    expect(inDocument).toEqual(parts);
    expect(await axeFindings(page)).toEqual([]);
  });

  it('says where to begin in a lot nobody has answered anything of', async () => {
    await using open = await openWindow();
    const { page } = open;
    await page.getByRole('textbox', { name: 'What do you call it?' }).fill('Plover Hill');
    await page.getByRole('button', { name: 'Begin' }).click();
    await page.getByText('10 to answer.').waitFor();
    await page.getByRole('link', { name: 'Today', exact: true }).click();
    await page.getByText('Ten of the first boxes on the lot’s card are empty.').waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await page.getByRole('link', { name: 'Answer the first boxes' }).click();
    await page.getByText('10 to answer.').waitFor();
  });
});
