import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { RequestAnswer } from '../../core/desk/door.ts';
import { axeFindings, type OpenWindow, openWindow, sampleDay } from './harness.ts';

/** What the desk says of the sample's way: the window has to show just that. */
async function wayOf(open: OpenWindow): Promise<RequestAnswer<'way'>['stops']> {
  const { folder } = await open.host.sampleLot();
  const { lot } = await open.host.desk.ask('open-lot', { folder });
  const { stops } = await open.host.desk.ask('way', {}, { lot, on: sampleDay });
  return stops.filter(({ state }) => state !== "doesn't apply");
}

describe('the way, drawn', () => {
  let open: OpenWindow;
  beforeAll(async () => {
    open = await openWindow({ sample: true });
    await open.openSample('way');
    await open.page.getByRole('button', { name: /Order the truss sheets, can go/ }).waitFor();
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  it('says what the whole way comes to', async () => {
    const strip = open.page.locator('.way-strip');
    const said = (await strip.textContent()) ?? '';
    const stops = await wayOf(open);
    const settled = stops.filter(({ state }) => state === 'settled').length;
    const ahead = stops.filter(({ state, fee }) => state !== 'settled' && fee === undefined).length;
    expect(stops.length).toBeGreaterThan(30);
    expect(said).toContain(`${settled} of ${stops.length} settled`);
    expect(said).toMatch(/12 Mar 2027, reached, \d+ days to spare/);
    expect(said).toContain(`${ahead} not known`);
    expect(await axeFindings(open.page)).toEqual([]);
  });

  it('names each errand, its state and its day to a screen reader', async () => {
    const station = open.page.getByRole('button', {
      name: /Order the truss sheets, can go, 14 Apr 2026, \d+ days to spare/,
    });
    expect(await station.count()).toBe(1);
  });

  it('keeps every name on the sheet apart from its neighbours', async () => {
    const overlapping = await open.page.evaluate(() => {
      // Slanted alike, so two names are apart where their baselines are: across the slant, by a line's height.
      const across = Math.sin((52 * Math.PI) / 180);
      const places = [...document.querySelectorAll<SVGTextElement>('.way-name')]
        .map((text) => text.transform.baseVal.getItem(0).matrix.e)
        .sort((a, b) => a - b);
      return places.slice(1).filter((x, index) => (x - (places[index] ?? 0)) * across < 13);
    });
    expect(overlapping).toEqual([]);
  });

  // A gate's posts ran through "14 Apr" and made another date of it.
  it('lets no line run through the words of a day', async () => {
    const crossed = await open.page.evaluate(() => {
      const sheet = document.querySelector('.way-drawing');
      const lines = [...(sheet?.querySelectorAll('path') ?? [])];
      return [...(sheet?.querySelectorAll<SVGTextElement>('text.way-flag') ?? [])].flatMap((words) => {
        const plate = words.previousElementSibling;
        const [inner, outer] = [words.getBoundingClientRect(), plate?.getBoundingClientRect()];
        const covered = outer !== undefined && outer.left <= inner.left && outer.right >= inner.right - 1;
        const over = lines.filter((line) => plate !== null && (plate.compareDocumentPosition(line) & 4) !== 0);
        return covered && over.every((line) => line.closest('.way-waits') !== null) ? [] : [words.textContent];
      });
    });
    expect(crossed).toEqual([]);
    expect(await open.page.locator('text.way-flag').count()).toBeGreaterThan(1);
    expect(await open.page.locator('.way-posts').count()).toBeGreaterThan(1);
  });

  it('is walked, opened and zoomed by keyboard alone', async () => {
    const { page } = open;
    await page.getByRole('radio', { name: 'months' }).focus();
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    const stops = await wayOf(open);
    const focused = () => page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? '');
    expect(await focused()).toContain('can go');
    await page.keyboard.press('End');
    expect(await focused()).toContain(`${stops.length}. ${stops.at(-1)?.title}`);
    const turn = stops.findIndex(({ errand }) => errand === 'insurance-convert');
    for (let at = stops.length - 1; at > turn; at -= 1) await page.keyboard.press('ArrowLeft');
    expect(await focused()).toContain(`${turn + 1}. Turn builder's risk`);
    await page.keyboard.press('Enter');
    const note = page.getByRole('region', { name: "Turn builder's risk into homeowner's cover" });
    await note.waitFor();
    expect(await page.locator('.way-waits circle').count()).toBeGreaterThan(0);
    expect(await axeFindings(page)).toEqual([]);
    await note.getByRole('button', { name: /^\d+ Final occupancy walkthrough/ }).focus();
    await page.keyboard.press('Enter');
    const walk = stops.findIndex(({ errand }) => errand === 'occupancy-walk');
    expect(await focused()).toContain(`${walk + 1}. Final occupancy walkthrough`);
    await page.keyboard.press('Enter');
    await page.getByRole('region', { name: 'Final occupancy walkthrough' }).waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('region', { name: 'Final occupancy walkthrough' }).waitFor({ state: 'detached' });
    const wide = await page.locator('.way-paper').evaluate((paper) => paper.clientWidth);
    await page.keyboard.press('+');
    await page.getByRole('radio', { name: 'weeks', checked: true }).waitFor();
    expect(await page.locator('.way-paper').evaluate((paper) => paper.clientWidth)).toBeGreaterThan(wide);
  });

  it('shows papers still to come and with no end when asked', async () => {
    const { page } = open;
    const strips = page.getByRole('list', { name: 'Lives of the papers' }).getByRole('listitem');
    const before = await strips.count();
    await page.getByText(/^with no end/).click();
    await strips.nth(before).waitFor();
    await page.getByText(/^still to come/).click();
    await strips.filter({ hasText: 'Certificate of occupancy, about' }).waitFor();
  });

  it('leads from a station to its errand', async () => {
    const { page } = open;
    await page.getByRole('button', { name: /Order the truss sheets/ }).click();
    await page.getByRole('link', { name: 'Open this errand' }).click();
    await page.getByRole('heading', { level: 1, name: /Order the truss sheets/ }).waitFor();
  });
});

describe('the way, as a list', () => {
  it('tells the same, is filtered and sorted by keyboard, and is clean in light', async () => {
    await using open = await openWindow({ sample: true });
    const page = await open.openSample('way/list');
    const rows = page.locator('.way-table tbody tr:not(.group)');
    await rows.first().waitFor();
    const stops = await wayOf(open);
    expect(await rows.count()).toBe(stops.length);
    expect(await page.locator('.way-table .group').allTextContents()).toEqual([
      'the land',
      'before the permit',
      'building',
      'closing',
    ]);
    await page.getByText('nothing', { exact: true }).click();
    await page.getByRole('button', { name: 'Spare' }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('columnheader', { name: 'Spare' }).and(page.locator('[aria-sort="ascending"]')).waitFor();
    const least = Math.min(...stops.flatMap(({ spare }) => spare ?? []));
    expect(await rows.first().textContent()).toContain(`${least} days`);
    expect(await axeFindings(page)).toEqual([]);
    await page.getByRole('button', { name: /Stretch of the way/ }).focus();
    await page.keyboard.press('Enter');
    await page.keyboard.type('closing');
    await page.keyboard.press('Enter');
    const closing = stops.filter(({ stretch }) => stretch === 'closing').length;
    expect(closing).toBeGreaterThan(5);
    await page.getByText(`${closing} of ${stops.length} errands shown`).waitFor({ state: 'attached' });
    expect(await rows.count()).toBe(closing);
  });

  it('warns in words where going today would be too soon, and is clean in the dark', async () => {
    await using open = await openWindow({ sample: true, dark: true });
    const { lot } = await open.host.desk.ask('open-lot', { folder: (await open.host.sampleLot()).folder });
    // Without a well to drill nobody digs for weeks, and a locate ticket lasts days.
    await open.host.desk.ask('answer', { question: 'water', answer: 'public' }, { lot, on: sampleDay });
    const page = await open.openSample('way/list');
    await page.getByText('Too soon today: got now, its paper would lapse').waitFor();
    await page.getByRole('heading', { name: 'Not yet' }).waitFor();
    expect(await page.getByText('Before you pour the footings').isVisible()).toBe(true);
    expect(await axeFindings(page)).toEqual([]);
    await page.getByRole('link', { name: 'Drawn' }).click();
    await page.getByRole('button', { name: /Order the truss sheets, can go/ }).waitFor();
    expect(await axeFindings(page)).toEqual([]);
  });
});
