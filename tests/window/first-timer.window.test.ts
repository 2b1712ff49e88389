import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { final, firstMonth, framing } from '../sample/first-timer.ts';
import { axeFindings } from './harness.ts';
import { openToldLot, type ToldWindow } from './told-lot.ts';

/** All that is to be read in a place, its lines run together. */
async function words(page: Page, where: string): Promise<string> {
  return (await page.locator(where).allInnerTexts()).join(' ').replace(/\s+/g, ' ');
}

/** All of them, in this order. */
function inOrder(text: string, parts: readonly string[]): void {
  const places = parts.map((part) => text.indexOf(part));
  expect(places, `${parts.join(', ')} in: ${text}`).not.toContain(-1);
  expect(places).toEqual(places.toSorted((a, b) => a - b));
}

describe('in the window, while framing goes on, a first-timer asks', () => {
  let told: ToldWindow;
  beforeAll(async () => {
    told = await openToldLot('framing');
  }, 0);
  afterAll(async () => {
    await told[Symbol.asyncDispose]();
  });

  it('what next, what do I carry, and what lapses within 60 days?', async () => {
    const page = await told.screen('today');
    await page.getByRole('heading', { name: 'Lapses within 60 days' }).waitFor();
    const slip = await words(page, '.today-page');
    inOrder(slip, [framing.lapsed, ...framing.next]);
    const septic = page.locator('.today-errand', { hasText: framing.next[1] });
    await septic.getByRole('button', { name: /^Show what to carry/ }).click();
    const carry = await words(page, `.today-errand:has-text("${framing.next[1]}")`);
    inOrder(carry, framing.carry);
    expect(carry).toContain(framing.copies);
    expect(carry).toContain(framing.bring);
    const lapses = await words(page, 'section[aria-labelledby="today-lapses"]');
    for (const title of framing.lapses)
      expect(lapses).toContain(`${title} WP-25-0102 good through ${framing.lapsesDay}`);
    // Fixed bug: the day after it lapsed the permit was gone from the list.
    inOrder(lapses, ['Septic permit', 'lapsed after', ...framing.lapses]);
    expect(await page.locator('section[aria-labelledby="today-lapses"] li').count()).toBe(framing.lapses.length + 1);
    expect(await axeFindings(page)).toEqual([]);
  });

  it('what does it cost?', async () => {
    const page = await told.screen('costs');
    const total = page.getByRole('row', { name: /Land/ }).first();
    await total.waitFor();
    const ledger = await words(page, 'main.screen');
    expect(ledger).toContain(`$${framing.costs.left} left`);
    expect(ledger).toContain(framing.draw);
    // The table's foot leaves the land out: 460,400 - 62,000 = 398,400 and 223,500 - 62,000 = 161,500.
    const house = page.getByRole('row', { name: /The house without the land/ });
    const sums = await house.getByRole('cell').allTextContents();
    expect(sums).toEqual(['398,400', '201,800', '161,500', framing.costs.toPay]);
  });

  it('what may I not cover up?', async () => {
    const page = await told.screen('inspections');
    await page.getByText('Before you cover the walls').first().waitFor();
    const shown = await words(page, 'main.screen');
    expect(shown).toContain('Before you cover the walls');
    expect(shown).toContain('Before you cover the septic system');
    for (const title of [...framing.walls, framing.septicHold]) expect(shown).toContain(title);
  });

  it('whom must I tell that the plans changed, and what has the insurer not seen?', async () => {
    const page = await told.screen('offices');
    const tell = page.getByRole('region', { name: 'House plans, revision D, not approved yet' });
    await tell.waitFor();
    const rows = (await tell.getByRole('listitem').allInnerTexts()).map((row) => row.replace(/\s+/g, ' '));
    for (const holder of framing.holders) {
      expect(rows.filter((row) => row.includes(`${holder} revision C`))).toHaveLength(1);
    }
    for (const maker of framing.makers) expect(rows.some((row) => row.includes(`${maker}:`))).toBe(true);
    await tell.getByText('revision C counts on the site.').waitFor();
    expect(await page.getByText(/holds the old one|old copy/i).count()).toBe(0);
    expect(rows).toHaveLength(framing.holders.length + framing.makers.length);
    const agent = await words(page, 'section.office:has(h2:text-is("Insurance agent"))');
    for (const paper of framing.insurer)
      expect(agent.replace(/not seen by them/gi, 'unseen')).toContain(`unseen ${paper}`);
    expect(await axeFindings(page)).toEqual([]);
  });

  // The card said of the newest plans that a newer edition stood in their place, and of a lapsed permit just "It counts".
  it('do the new plans count, and does the lapsed permit?', async () => {
    const page = await told.screen('offices');
    await page.getByRole('link', { name: 'House plans', exact: true }).first().click();
    await page
      .getByText('It doesn’t count yet: Brindlemoor Permit Desk has not approved it, revision C counts.')
      .waitFor();
    await page.getByRole('link', { name: /^3\. revision C/ }).click();
    await page.getByText(/^It counts: Brindlemoor Permit Desk approved it/).waitFor();
    const today = await told.screen('today');
    await today.locator('.today-amiss').getByRole('link', { name: 'Septic permit', exact: true }).click();
    await page.getByText('It is the one that counts, but it has lapsed.').waitFor();
  });

  it('who is on site without cover?', async () => {
    const page = await told.screen('trades');
    await page.locator('.trades-answer').getByText(framing.uncovered).waitFor();
  });

  it('what would the inspector turn me away for today?', async () => {
    const page = await told.screen('errand/framing-inspect');
    await page.getByText(framing.corrections[0]).first().waitFor();
    const shown = await words(page, 'main.screen');
    inOrder(shown, framing.corrections);
    expect(shown).toContain(framing.notApproved);
    const next = await told.screen('errand/insulation-inspect');
    await next.getByText('"Framing inspection result" of 10 Sep 2026 says "not passed".').first().waitFor();
  });
});

describe('in the window, in the week of the final, a first-timer asks', () => {
  let told: ToldWindow;
  beforeAll(async () => {
    told = await openToldLot('final');
  }, 0);
  afterAll(async () => {
    await told[Symbol.asyncDispose]();
  });

  it('what next, and what lapses when', async () => {
    const page = await told.screen('today');
    await page.getByRole('heading', { name: 'Lapses within 60 days' }).waitFor();
    const lapses = await words(page, 'section[aria-labelledby="today-lapses"]');
    inOrder(lapses, final.lapses);
    inOrder(lapses, final.lapsesDays);
    expect(lapses).toContain(`ask by ${final.askBy}`);
    expect(await words(page, '.today-stub')).toContain(final.waiting);
  });

  // Fixed bug: what lies with them stood there "at the earliest", on the day it was left.
  it('of what lies with them since when, and when an answer is due', async () => {
    const head = await told.screen('errand/driveway-finish');
    await head.getByText(`${final.lies.replace('with them ', '')}; their answer: ${final.answer}`).waitFor();
    const all = await told.screen('inspections');
    await all.getByText(`${final.lies.replace('with', 'With')}; their answer: ${final.answer}.`).waitFor();
    expect(await words(all, 'main.screen')).not.toContain('23 Feb 2027 at the earliest');
  });

  it('what they would turn me away for, what the insurer has not seen, and whether the bank pays', async () => {
    const walk = await told.screen('errand/occupancy-walk');
    await walk.getByText(final.missing).first().waitFor();
    const offices = await told.screen('offices');
    await offices.getByRole('heading', { name: 'Insurance agent' }).waitFor();
    const agent = await words(offices, 'section.office:has(h2:text-is("Insurance agent"))');
    for (const paper of final.insurer) expect(agent).toContain(paper);
    const costs = await told.screen('costs');
    await costs.getByText(new RegExp(final.draw)).first().waitFor();
    expect(await words(costs, 'main.screen')).toContain(final.noFinalWaiver);
  });
});

describe('in the window, in the first month, a first-timer asks', () => {
  it('what next, what is waited for, and what lapses', async () => {
    await using told = await openToldLot('first-month');
    const page = await told.screen('today');
    await page.getByRole('heading', { name: 'Lapses within 60 days' }).waitFor();
    inOrder(await words(page, '.today-page'), firstMonth.next);
    const stub = await words(page, '.today-stub');
    expect(stub).toContain(firstMonth.waiting);
    expect(stub).toContain(`${firstMonth.lapses} 2604-060218 good through ${firstMonth.lapsesDay}`);
  });
});
