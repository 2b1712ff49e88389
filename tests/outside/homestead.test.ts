import { describe, expect, test } from 'vitest';
import { figures, firstFiling, floridaFiling, homesteadSplit } from '../../core/figures/index.ts';
import { addSpan, asDay, dayWithWeekday, isDay, nextOpenDay, safeDay } from '../../core/vocabulary/days.ts';

describe('filing for the homestead', () => {
  test('in Florida a house finished after 1 January 2026 first counts for 2027, filed 1 January to 1 March 2027', () => {
    // Sources: americandreamtitle.com, what is homestead exemption; ofa.manateepao.gov; the case is computed.
    expect(firstFiling('2026-01-02', floridaFiling)).toEqual({
      taxYear: 2027,
      opens: '2027-01-01',
      closes: '2027-03-01',
      safe: '2027-03-01',
    });
    expect(firstFiling('2026-01-01', floridaFiling).taxYear).toBe(2026);
    expect(firstFiling('2026-12-31', floridaFiling).taxYear).toBe(2027);
  });

  test('a last day on a weekend is shown with the earlier, safe day: Sunday 1 March 2026', () => {
    expect(firstFiling('2025-06-01', floridaFiling)).toMatchObject({ closes: '2026-03-01', safe: '2026-02-27' });
  });

  test('Georgia closes on 1 April', () => {
    // approvedclosings.com, Florida and Georgia homestead.
    expect(firstFiling('2026-03-09', { ...floridaFiling, closes: '04-01' }).closes).toBe('2027-04-01');
  });

  test('late filing in Texas: one year after the delinquency date in one stored text, two in the later one', () => {
    // Texas Tax Code 11.431: tx.elaws.us (earlier), instalawyer.io (later). Both are kept with the day they were read.
    const delinquent = asDay('2026-02-01');
    expect([1, 2].map((years) => addSpan(delinquent, { years }))).toEqual(['2027-02-01', '2028-02-01']);
  });

  test('the acres split into the homestead and the rest; an acre set apart is common practice, no source', () => {
    expect(homesteadSplit(3.5, 1)).toEqual({ homestead: 1, rest: 2.5 });
    expect(homesteadSplit(0.8, 1)).toBeUndefined();
    const acres = { sort: 'number', value: 3.5 } as const;
    const rest = figures.homestead_rest?.compute(
      { acres, homestead: { sort: 'number', value: 1 } },
      { day: '2027-03-10' },
    );
    expect(rest).toEqual({ sort: 'number', value: 2.5 });
  });
});

describe('days that fall on a weekend', () => {
  test('1 March 2025 was a Saturday and 1 March 2026 is a Sunday', () => {
    // Computed; a permit rule may have no rule to roll forward, so the earlier day is the safe one.
    expect([asDay('2025-03-01'), asDay('2026-03-01')].map(dayWithWeekday)).toEqual([
      'Sat 1 Mar 2025',
      'Sun 1 Mar 2026',
    ]);
    expect([safeDay('2025-03-01'), nextOpenDay('2025-03-01')]).toEqual(['2025-02-28', '2025-03-03']);
    expect([safeDay('2026-03-01'), nextOpenDay('2026-03-01')]).toEqual(['2026-02-27', '2026-03-02']);
  });

  test('dates are those of RFC 3339: four digits, a month that is one, a day its month has', () => {
    // Grammar of full-date: suikawiki-data, ids/0/206.txt; tex2e.github.io, RFC 3339.
    for (const good of ['2024-02-29', '2000-02-29', '2026-12-31']) expect(isDay(good), good).toBe(true);
    for (const bad of ['2026-02-29', '1900-02-29', '2026-13-01', '2026-04-31', '26-04-01', '2026-4-1', '2026-04-00'])
      expect(isDay(bad), bad).toBe(false);
  });
});
