import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { costLedger } from '../../core/figures/cost-ledger.ts';
import { type ScheduledLine, scheduleOf } from '../../core/figures/schedule-of-values.ts';
import type { CostBook } from '../../core/vocabulary/costs.ts';

const dollars = (amounts: readonly number[]): readonly number[] => amounts.map((amount) => amount * 100);

function linesOf(rows: readonly (readonly [c: number, d: number, e: number, f: number])[]): readonly ScheduledLine[] {
  return rows.map(([c, d, e, f], at) => {
    const [scheduled = 0, previous = 0, work = 0, stored = 0] = dollars([c, d, e, f]);
    return { line: `line-${at}`, scheduled, previous, work, stored };
  });
}

/** Made-up inputs; the answers are computed by the usual summary lines (vdocument.in, ten steps of a payment request). */
const house = linesOf([
  [12_000, 12_000, 0, 0],
  [38_000, 38_000, 0, 0],
  [62_000, 20_000, 24_000, 3_500],
  [18_000, 0, 9_000, 0],
  [16_000, 0, 4_000, 0],
  [104_000, 0, 0, 0],
]);

describe('a draw by the schedule of values', () => {
  test.each([
    [10, 11_050, 99_450, 63_000, 36_450, 150_550],
    [5, 5_525, 104_975, 66_500, 38_475, 145_025],
  ])(
    'at %i %% held back: %i kept, %i earned, less %i, due %i, balance %i',
    (percent, kept, earned, before, due, balance) => {
      const rate = percent * 100;
      const schedule = scheduleOf({
        lines: house,
        original: 25_000_000,
        changes: 0,
        workRate: rate,
        storedRate: rate,
        previousPayments: before * 100,
      });
      expect([schedule.completed, schedule.retainage, schedule.earned, schedule.due, schedule.balance]).toEqual(
        dollars([110_500, kept, earned, due, balance]),
      );
      expect(schedule.totals.share).toBe(4420);
      // Percent of each line: 100, 100, 76.6, 50, 25, 0.
      expect(schedule.rows.map(({ share }) => Math.round((share ?? 0) / 10) / 10)).toEqual([100, 100, 76.6, 50, 25, 0]);
    },
  );

  test('30 % of 500,000 with 10 % held: an invoice of 100,000 pays 90,000 and holds 10,000', () => {
    // Source: thinkingledger.com, "Accounting for retainage and progress billing".
    expect(500_000 * 0.3).toBe(150_000);
    const invoice = linesOf([[500_000, 0, 100_000, 0]]);
    const given = { lines: invoice, original: 50_000_000, changes: 0, storedRate: 1000, previousPayments: 0 };
    const schedule = scheduleOf({ ...given, workRate: 1000 });
    expect([schedule.due, schedule.retainage]).toEqual(dollars([90_000, 10_000]));
  });

  test('held-back parts of the lines always add up to what is held back in all, to the cent', () => {
    const cents = fc.integer({ min: 0, max: 9_999_999 });
    const line = fc.record({ scheduled: cents, previous: cents, work: cents, stored: cents });
    fc.assert(
      fc.property(fc.array(line, { maxLength: 12 }), fc.integer({ min: 0, max: 10_000 }), (lines, rate) => {
        const named = lines.map((one, at) => ({ ...one, line: `line-${at}` }));
        const original = lines.reduce((sum, { scheduled }) => sum + scheduled, 0);
        const given = { lines: named, original, changes: 0, storedRate: rate, previousPayments: 0 };
        const { rows, retainage, due, balance } = scheduleOf({ ...given, workRate: rate });
        expect(rows.reduce((sum, row) => sum + row.retainage, 0)).toBe(retainage);
        // Line 9 (from memory): balance with retainage is the contract less what was earned.
        expect(due + balance).toBe(original);
      }),
    );
  });
});

test('a buffer of at least a quarter of the estimate (common practice, no source)', () => {
  const line = (id: string, sort: 'work' | 'contingency', estimate: number) => ({ id, sort, title: id, estimate });
  const book = (buffer: number): CostBook => ({
    lines: [line('frame', 'work', 20_000_000), line('roof', 'work', 4_000_000), line('buffer', 'contingency', buffer)],
    changeOrders: [],
    invoices: [],
    payments: [],
    waivers: [],
    notices: [],
    draws: [],
  });
  expect(costLedger(book(6_000_000)).contingency?.share).toBe(2500);
  expect(costLedger(book(5_980_000)).contingency?.share).toBeLessThan(2500);
});
