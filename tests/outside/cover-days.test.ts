import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { uncovered } from '../../core/readiness/index.ts';
import { addDays, addSpan, type Day, daysBetween } from '../../core/vocabulary/days.ts';

describe('days of cover', () => {
  test('a binder from 1 May 2026 for 30, 60 or 90 days reaches 31 May, 30 June, 30 July', () => {
    // Computed by hand. 30: trade habit (independentagent.com); 60: N.J.A.C. 17:36-5.16;
    // 90: Alaska 21.42.240, Alabama 27-14-18, RCW 48.18.230, California Ins. 382.5.
    const ends = [30, 60, 90].map((days) => addSpan('2026-05-01', { days }));
    expect(ends).toEqual(['2026-05-31', '2026-06-30', '2026-07-30']);
  });

  test("no day lies between builder's risk and the homeowner's policy where one begins on the other's last day", () => {
    // Derived, no source: the new policy takes effect no later than the old one's end.
    const days = { from: '2026-05-01', to: '2027-05-01' } as const;
    const builders = { from: '2026-05-01', to: '2027-03-10' } as const;
    expect(uncovered(days, [builders, { from: '2027-03-10', to: '2028-03-10' }])).toEqual([]);
    expect(uncovered(days, [builders, { from: '2027-03-11', to: '2028-03-10' }])).toEqual([]);
    expect(uncovered(days, [builders, { from: '2027-03-13', to: '2028-03-10' }])).toEqual([
      { from: '2027-03-11', to: '2027-03-12' },
    ]);
  });

  test('one gap per run of days, found the slow way as well', () => {
    const start: Day = '2026-01-01';
    const span = fc
      .tuple(fc.nat(80), fc.nat(30))
      .map(([from, length]) => ({ from: addDays(start, from), to: addDays(start, from + length) }));
    fc.assert(
      fc.property(fc.array(span, { maxLength: 6 }), fc.nat(40), fc.nat(60), (spans, from, length) => {
        const days = { from: addDays(start, from), to: addDays(start, from + length) };
        const gaps = uncovered(days, spans);
        const open = Array.from({ length: length + 1 }, (_, n) => addDays(days.from, n)).filter(
          (day) => !spans.some((each) => each.from <= day && day <= each.to),
        );
        const told = gaps.flatMap((gap) =>
          Array.from({ length: daysBetween(gap.from, gap.to) + 1 }, (_, n) => addDays(gap.from, n)),
        );
        expect(told).toEqual(open);
        for (const [at, gap] of gaps.entries()) {
          const next = gaps[at + 1];
          if (next !== undefined) expect(daysBetween(gap.to, next.from)).toBeGreaterThan(1);
        }
      }),
      { numRuns: 300 },
    );
  });
});
