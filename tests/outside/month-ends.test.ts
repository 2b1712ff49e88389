import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { calendarOf, openFrom, openUntil, plusSpan, toDay, toNumber } from '../../core/readiness/calendar.ts';
import {
  addDays,
  addSpan,
  addWorkingDays,
  type Day,
  nextOpenDay,
  type Span,
  safeDay,
} from '../../core/vocabulary/days.ts';
import { d } from '../readiness/making.ts';

const noHolidays = calendarOf([]);

/**
 * Source: ECMAScript conformance suite tc39/test262, Temporal PlainDate add:
 * basic-arithmetic.js and leap-year-arithmetic.js.
 */
const conformance: readonly (readonly [Day, Span, Day])[] = [
  ['2020-01-31', { months: 1 }, '2020-02-29'],
  ['2020-02-29', { years: 1 }, '2021-02-28'],
  ['2020-02-29', { years: 4 }, '2024-02-29'],
  ['2021-09-30', { months: 5 }, '2022-02-28'],
  ['2019-09-30', { months: 5 }, '2020-02-29'],
  ['2021-12-31', { years: 1, months: 2 }, '2023-02-28'],
  ['2022-12-31', { years: 1, months: 2 }, '2024-02-29'],
  ['2021-10-31', { months: 5 }, '2022-03-31'],
  ['2021-02-27', { years: 1, months: 2, days: 4 }, '2022-05-01'],
  ['2021-12-30', { years: 1, months: 2, days: 4 }, '2023-03-04'],
  ['2022-12-29', { years: 1, months: 2, days: 4 }, '2024-03-04'],
  ['2020-02-26', { days: 10 }, '2020-03-07'],
  ['2021-02-26', { days: 10 }, '2021-03-08'],
  ['2020-02-19', { days: 10 }, '2020-02-29'],
  ['2021-02-19', { days: 10 }, '2021-03-01'],
  ['2019-10-31', { months: 2, weeks: 3 }, '2020-01-21'],
];

describe('adding months and days', () => {
  test.each(conformance)('%s plus %o is %s, as the conformance suite has it', (start, span, end) => {
    expect(plusSpan(start, span, noHolidays)).toBe(end);
    expect(addSpan(start, span)).toBe(end);
  });

  test('two months at once is not one month twice', () => {
    const once = plusSpan('2025-01-31', { months: 1 }, noHolidays);
    expect(plusSpan(once, { months: 1 }, noHolidays)).toBe('2025-03-28');
    expect(plusSpan('2025-01-31', { months: 2 }, noHolidays)).toBe('2025-03-31');
  });

  test('1600 and 2000 are leap years; 1700, 1800 and 1900 are not', () => {
    // Source: the Gregorian rule, as listed at gist.github.com/crunk1/81ac444b727b0f11dfd6f7adad1ee017.
    for (const year of ['1600', '2000']) expect(toDay(toNumber(d(`${year}-02-28`)) + 1)).toBe(`${year}-02-29`);
    for (const year of ['1700', '1800', '1900']) expect(toDay(toNumber(d(`${year}-02-28`)) + 1)).toBe(`${year}-03-01`);
  });
});

describe('the whole-number calendar against the general date library', () => {
  const day = fc.integer({ min: -40_000, max: 60_000 }).map((count) => addDays('2000-01-01', count));
  const span = fc.record({
    years: fc.integer({ min: -5, max: 5 }),
    months: fc.integer({ min: -30, max: 30 }),
    weeks: fc.integer({ min: 0, max: 6 }),
    days: fc.integer({ min: 0, max: 400 }),
  });

  test('every date and span comes out alike', () => {
    fc.assert(
      fc.property(day, span, (start, parts) => {
        expect(toDay(toNumber(start))).toBe(start);
        const signed = { ...parts, weeks: parts.years < 0 || parts.months < 0 ? 0 : parts.weeks, days: 0 };
        const whole =
          parts.years >= 0 && parts.months >= 0
            ? parts
            : { years: -Math.abs(parts.years), months: -Math.abs(parts.months) };
        expect(plusSpan(start, whole, noHolidays)).toBe(addSpan(start, whole));
        if (parts.years >= 0 && parts.months >= 0)
          expect(plusSpan(start, signed, noHolidays)).toBe(addSpan(start, signed));
      }),
      { numRuns: 1500 },
    );
  });

  test('working days skip weekends and holidays alike, forward and back', () => {
    const holidays: readonly Day[] = ['2026-05-25', '2026-07-03', '2026-11-26', '2026-12-25'];
    const calendar = calendarOf(holidays);
    const nearby = fc.integer({ min: 0, max: 400 }).map((count) => addDays('2026-01-01', count));
    fc.assert(
      fc.property(nearby, fc.integer({ min: -40, max: 40 }), (start, count) => {
        expect(plusSpan(start, { workingDays: count }, calendar)).toBe(addWorkingDays(start, count, holidays));
        expect(openFrom(start, calendar)).toBe(nextOpenDay(start, holidays));
        expect(openUntil(start, calendar)).toBe(safeDay(start, holidays));
      }),
      { numRuns: 500 },
    );
  });
});

/** Source: Federal Rules of Civil Procedure, rule 6(a), and its committee note; weekdays checked by computation. */
describe('a last day on a weekend', () => {
  const laborDay = calendarOf(['2007-09-03']);

  test('counted forward it lands on the Saturday, and the next open day is the Tuesday after the holiday', () => {
    const last = plusSpan('2007-08-02', { days: 30 }, laborDay);
    expect(last).toBe('2007-09-01');
    expect(openFrom(last, laborDay)).toBe('2007-09-04');
  });

  test('counted back it is the Friday: the earlier, safe day', () => {
    expect(openUntil('2007-09-01', laborDay)).toBe('2007-08-31');
  });
});
