import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFindings, type OpenWindow, openWindow } from './harness.ts';

/** How many different colours a drawn page shows: a blank canvas has one. */
function coloursOn(page: Page): Promise<number> {
  return page
    .locator('.errand-top canvas')
    .first()
    .evaluate((canvas) => {
      if (!(canvas instanceof HTMLCanvasElement)) return 0;
      const { data } = canvas.getContext('2d')?.getImageData(0, 0, canvas.width, canvas.height) ?? { data: [] };
      const seen = new Set<number>();
      for (let at = 0; at < data.length; at += 4) seen.add(((data[at] ?? 0) << 8) | (data[at + 3] ?? 0));
      return seen.size;
    });
}

describe('an errand on its spread', () => {
  let open: OpenWindow;
  let page: Page;
  beforeAll(async () => {
    open = await openWindow({ sample: true });
    page = await open.openSample('errand/permit-apply');
    await page.getByText('Sheet 1 of 72: Cover').waitFor();
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  it('says in one line what the office will say, and with whom one has to do', async () => {
    await page.getByText('You would be turned away: 2 reasons.').waitFor();
    for (const told of [
      '12 Courthouse Lane, Lower Brindle',
      '555-0142',
      'photo id',
      'What restarts the permit’s clock?',
    ]) {
      expect(await page.getByText(told.replace('’', "'")).first().isVisible(), told).toBe(true);
    }
    const first = page.locator('.errand-waits');
    expect(await first.textContent()).toContain('Order the truss sheets');
    expect(await first.textContent()).toContain('Tue 12 May 2026');
    expect(await axeFindings(page)).toEqual([]);
  });

  it('tells beside the need why it is refused, on whose word, and the errand that puts it right', async () => {
    const need = page.locator('.errand-need', { hasText: "Builder's risk binder" });
    await need.getByRole('button', { name: /^Show why, and what to do/ }).click();
    const told = await need.textContent();
    expect(told).toContain('refused');
    expect(told).toContain('lapses after Sun 19 Apr 2026');
    expect(told).toContain('Who says so');
    const link = need.getByRole('link', { name: 'Go to that errand' });
    expect(await link.getAttribute('href')).toBe('#/sample/errand/builders-risk-bind');
  });

  it('shows the rule behind a need one press away, with its basis', async () => {
    const need = page.locator('.errand-need', { hasText: 'House plans' }).first();
    await need.getByRole('button', { name: 'Show the rule: House plans' }).click();
    expect(await need.textContent()).toContain('R. Amsel told you on 2 Apr 2026');
  });

  it('draws a paper’s own page when its tab is pressed, with the margin line it will bear', async () => {
    await page.getByRole('button', { name: /Show the sheets of Deed, tab 3/ }).click();
    await page.getByText(/Sheet \d+ of 72: Deed/).waitFor();
    await expect.poll(() => coloursOn(page), { timeout: 30_000 }).toBeGreaterThan(8);
    const stamp = await page.locator('.errand-top .errand-stamp').textContent();
    expect(stamp).toContain('DRAFT');
    expect(stamp).toContain('PERMIT-APPLY · tab 3');
    expect(await page.locator('[data-errand-tab="3"]').getAttribute('aria-current')).toBe('true');
  });

  it('joins each need in view to its tab by a line across the gutter', async () => {
    await page.getByRole('button', { name: /Show the sheets of Deed, tab 3/ }).scrollIntoViewIfNeeded();
    const line = page.locator('.errand-gutter path[data-tab="3"]');
    await expect.poll(() => line.getAttribute('d'), { timeout: 30_000 }).toMatch(/^M.*H/);
    const ends = await line.evaluate((path) => {
      if (!(path instanceof SVGPathElement)) return [];
      const own = path.ownerSVGElement?.getBoundingClientRect();
      const [from, to] = [path.getPointAtLength(0), path.getPointAtLength(path.getTotalLength())];
      return [from, to].map(({ x, y }) => [x + (own?.x ?? 0), y + (own?.y ?? 0)]);
    });
    const word = await page.locator('[data-errand-line="3"]').boundingBox();
    const tab = await page.locator('[data-errand-tab="3"]').boundingBox();
    expect(ends[0]?.[1]).toBeCloseTo((word?.y ?? 0) + (word?.height ?? 0) / 2, 0);
    expect(ends[1]?.[0]).toBeCloseTo(tab?.x ?? 0, 0);
    expect(ends[1]?.[1]).toBeCloseTo((tab?.y ?? 0) + (tab?.height ?? 0) / 2, 0);
  });

  it('turns the stack and opens it to full size with the keyboard alone', async () => {
    await page.getByRole('button', { name: 'Full size' }).focus();
    await page
      .getByRole('listbox', { name: 'Sheets in reading order' })
      .getByRole('option', { selected: true })
      .focus();
    await page.keyboard.press('Home');
    await page.getByText('Sheet 1 of 72: Cover').waitFor();
    await page.keyboard.press('ArrowDown');
    await page.getByText('Sheet 2 of 72: Index').waitFor();
    await page.getByRole('button', { name: 'Full size' }).focus();
    await page.keyboard.press('Enter');
    await page.getByText('Page 2 of 72: Index (Packet)').waitFor();
    await page.keyboard.press('End');
    await page.getByText(/Page 3 of 3: .*Your own errand sheet/).waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await page.getByRole('heading', { name: 'Leave with them' }).waitFor();
  });

  it('leads to the table for a missing paper, or puts the paper aside with the reason', async () => {
    const need = page.locator('.errand-need', { hasText: 'Driveway permit' });
    await need.getByRole('button', { name: 'It doesn’t apply here: Driveway permit' }).click();
    const act = page.getByRole('dialog').getByRole('button', { name: 'It doesn’t apply', exact: true });
    expect(await act.isDisabled()).toBe(true);
    await page.getByLabel('Why it doesn’t apply').fill('The lane is private.');
    expect(await axeFindings(page)).toEqual([]);
    await act.click();
    await page.getByText('Driveway permit: doesn’t apply here.').waitFor();
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await page.getByRole('button', { name: 'Undo' }).first().click();
    await need.getByRole('button', { name: 'I have it: add it: Driveway permit' }).click();
    await expect.poll(() => page.url(), { timeout: 30_000 }).toContain('#/sample/table/as/driveway-permit');
  });

  it('lists every errand by what can be done about it', async () => {
    await open.go('#/sample/errand');
    await page.getByRole('heading', { name: /You can go/ }).waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await page.getByRole('link', { name: 'Call for the locate ticket' }).click();
    await page.getByText('Nothing on file speaks against going; the office decides.').waitFor();
  });
});

describe('what the office said otherwise', () => {
  it('is noted in one act, stands with name and day, and changes what is refused', async () => {
    await using open = await openWindow({ sample: true, dark: true });
    const page = await open.openSample('errand/permit-apply');
    await page.getByText('You would be turned away: 2 reasons.').waitFor();
    expect(await axeFindings(page)).toEqual([]);
    const need = page.locator('.errand-need', { hasText: "Builder's risk binder" });
    await need.getByRole('button', { name: /^Show why/ }).click();
    await need.getByRole('button', { name: 'The office said otherwise' }).click();
    await page
      .getByRole('button', {
        name: "Change: Builder's risk policy or Builder's risk binder, Still good after the visit for",
      })
      .click();
    const dialog = page.getByRole('dialog');
    await dialog.getByRole('textbox').first().fill('2 days');
    await dialog.getByLabel('Who said so').fill('R. Amsel');
    expect(await axeFindings(page)).toEqual([]);
    await dialog.getByRole('button', { name: 'Note what they said' }).click();
    const amended = dialog.getByRole('status');
    await amended.waitFor();
    expect(await amended.textContent()).toContain('2 days');
    expect(await amended.textContent()).toContain('R. Amsel told you on 14 Apr 2026');
    await dialog.getByRole('button', { name: 'Done' }).click();
    await page.getByText('You would be turned away: 1 reason.').waitFor();
    await page.keyboard.press('Control+z');
    await page.getByText('You would be turned away: 2 reasons.').waitFor();
  });
});

describe('a packet of a thousand pages', () => {
  it('draws only what is in view', async () => {
    await using open = await openWindow({ sample: true });
    // The desk's own plan with its plan pages laid in over and over: what a fat packet sends.
    await open.page.route('**/ask/plan', async (route) => {
      const response = await route.fetch();
      const { ok, answer } = await response.json();
      const [packet, ...rest] = answer.files;
      const papers = packet.sheets.filter(({ of }: { readonly of: string }) => of === 'paper');
      const sheets = [...packet.sheets];
      while (sheets.length < 1000) sheets.push(papers[sheets.length % papers.length]);
      await route.fulfill({ response, json: { ok, answer: { ...answer, files: [{ ...packet, sheets }, ...rest] } } });
    });
    const page = await open.openSample('errand/permit-apply');
    await page.getByText('Sheet 1 of 1000: Cover').waitFor();
    const rows = () => page.getByRole('option').count();
    expect(await rows()).toBeLessThan(40);
    await page.getByRole('option', { selected: true }).focus();
    await page.keyboard.press('End');
    await page.getByText(/Sheet 1000 of 1000/).waitFor();
    await page.getByRole('button', { name: 'Full size' }).click();
    await page.getByText(/Page 1000 of 1000/).waitFor();
    expect(await page.locator('.errand-reader-sheet').count()).toBeLessThan(8);
    await page.getByRole('button', { name: '‹ Sheet before' }).click();
    await page.getByText(/Page 999 of 1000/).waitFor();
  });
});

describe('a packet that can’t be laid out', () => {
  it('says why in its place, and the needs stand all the same', async () => {
    await using open = await openWindow({ sample: true });
    const message = 'The pages of "Deed" are not in the lot folder.';
    await open.page.route('**/ask/plan', (route) =>
      route.fulfill({ json: { ok: false, error: { code: 'not found', message, next: 'Keep the paper again.' } } }),
    );
    const page = await open.openSample('errand/permit-apply');
    await page.locator('.errand-right').getByText(message).waitFor();
    expect(await page.locator('.errand-right').textContent()).toContain('Keep the paper again.');
    expect(await page.locator('.errand-need').count()).toBeGreaterThan(20);
    expect(await page.getByRole('button', { name: 'Assemble the packet' }).isDisabled()).toBe(true);
  });
});
