import { describe, expect, it } from 'vitest';
import {
  addSpan,
  addWorkingDays,
  asDay,
  dayWithWeekday,
  isDay,
  nextOpenDay,
  parseLead,
  parseSpan,
  safeDay,
  spanInWords,
} from '../../core/vocabulary/days.ts';

describe('plain dates', () => {
  it('takes only real calendar dates written year-month-day', () => {
    const good = ['2024-02-29', '2000-02-29', '2026-12-31'];
    const bad = ['2023-02-29', '1900-02-29', '2026-13-01', '26-1-1', '2026-1-01', '2026-04-31', ' 2026-04-14', ''];
    expect(good.filter((text) => !isDay(text))).toEqual([]);
    expect(bad.filter(isDay)).toEqual([]);
  });

  it('says how to write a date when one is wrong', () => {
    expect(() => asDay('3/2/26', 'issued')).toThrow(/"3\/2\/26" is not a date/);
  });

  it('reads and writes spans in words', () => {
    for (const text of ['18 months', '90 days', '10 working days', '1 year 2 months', '1 day', '2 weeks']) {
      const span = parseSpan(text);
      expect(span && spanInWords(span)).toBe(text);
    }
  });

  it('refuses what is no span', () => {
    for (const text of ['', 'soon', '18', 'months', '3 working months', '18 months or so', '-3 days']) {
      expect(parseSpan(text), text).toBeUndefined();
    }
  });

  it('reads lead times as a range, and refuses one turned round', () => {
    expect(parseLead('10 to 20 working days')).toEqual({ from: { workingDays: 10 }, to: { workingDays: 20 } });
    expect(parseLead('3 days')).toEqual({ from: { days: 3 }, to: { days: 3 } });
    expect(parseLead('same day')).toEqual({ from: { days: 0 }, to: { days: 0 } });
    expect(parseLead('20 to 10 days')).toBeUndefined();
  });

  it('counts working days over weekends and holidays', () => {
    expect(addWorkingDays('2026-04-10', 1)).toBe('2026-04-13');
    expect(addWorkingDays('2026-04-10', 1, ['2026-04-13'])).toBe('2026-04-14');
    expect(addWorkingDays('2026-04-13', -1)).toBe('2026-04-10');
    expect(addSpan('2026-04-14', { workingDays: 10 })).toBe('2026-04-28');
  });

  it('shows the earlier, safe day where a date falls on a weekend', () => {
    // 1 March 2026 is a Sunday (any calendar).
    expect(dayWithWeekday('2026-03-01')).toBe('Sun 1 Mar 2026');
    expect(safeDay('2026-03-01')).toBe('2026-02-27');
    expect(nextOpenDay('2026-03-01')).toBe('2026-03-02');
  });

  it('adds to the original date: adding month by month would drift', () => {
    expect(addSpan(addSpan('2025-01-31', { months: 1 }), { months: 1 })).toBe('2025-03-28');
    expect(addSpan('2025-01-31', { months: 2 })).toBe('2025-03-31');
  });
});
