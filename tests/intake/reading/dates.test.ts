import { describe, expect, it } from 'vitest';
import { findDates, fullYear } from '../../../core/intake/reading/dates.ts';
import { pageOf, readingOf, today } from './written.ts';

const daysIn = (text: string) => findDates(pageOf([text]).lines[0]?.words ?? [], today).map((date) => date.day);

describe('dates as US offices write them', () => {
  it('need a day of their own: a month and its year are none (they were read as the twentieth)', () => {
    expect(daysIn('April 2027')).toEqual([]);
    expect(daysIn('5S April 2027')).toEqual([]);
  });

  it.each([
    ['03/14/2026', '2026-03-14'],
    ['3/14/26', '2026-03-14'],
    ['03-14-2026', '2026-03-14'],
    ['3.14.2026', '2026-03-14'],
    ['March 14, 2026', '2026-03-14'],
    ['March 14,2026', '2026-03-14'],
    ['Mar. 14, 2026', '2026-03-14'],
    ['14 MAR 26', '2026-03-14'],
    ['14-Mar-2026', '2026-03-14'],
    ['14 March 2026', '2026-03-14'],
    ['March 14th, 2026', '2026-03-14'],
    ['14th day of March, 2026', '2026-03-14'],
    ['Sept. 9, 2026', '2026-09-09'],
    ['2026-03-14', '2026-03-14'],
    ['02/29/2024', '2024-02-29'],
  ])('reads "%s"', (text, day) => {
    expect(daysIn(`Issued ${text} by`)).toEqual([day]);
  });

  it.each([
    '02/29/2026',
    '13/32/2026',
    '041-22-0070',
    '(555) 555-0142',
    '6/12',
    '4.13.2',
    'Suite 3/4',
    'May be',
    '1/1',
  ])('takes "%s" for no date', (text) => {
    expect(daysIn(text)).toEqual([]);
  });

  it('mends what a scan makes of figures, and says that it did', () => {
    const [date] = findDates(pageOf(['O3/l4/2O26']).lines[0]?.words ?? [], today);
    expect(date).toMatchObject({ day: '2026-03-14', mended: true });
  });

  it('reads months with a slip in them', () => {
    expect(daysIn('Septernber 4, 2026')).toEqual(['2026-09-04']);
    expect(daysIn('Februaty 4, 2026')).toEqual(['2026-02-04']);
  });

  it('puts years of two figures near today, further back than ahead', () => {
    expect([26, 46, 47, 99, 0].map((year) => fullYear(year, '2026-07-15'))).toEqual([2026, 2046, 1947, 1999, 2000]);
    expect(fullYear(5, '2099-01-01')).toBe(2105);
  });
});

describe('dates that can be read two ways', () => {
  it('reads month first, keeps the other way beside it, and is not sure', () => {
    const { issued } = readingOf(['Date issued: 03/04/2026']);
    expect(issued).toMatchObject({ value: '2026-03-04', sureness: 'likely', otherwise: ['2026-04-03'] });
    expect(issued?.doubts[0]).toContain('day first it would be 3 Apr 2026');
  });

  it('is sure where another date on the paper proves the order', () => {
    const { issued } = readingOf(['Date issued: 03/04/2026', 'Expires on: 09/28/2027']);
    expect(issued).toMatchObject({ value: '2026-03-04', sureness: 'sure' });
  });

  it('is not sure where another date proves the other order', () => {
    const { issued, goodThrough } = readingOf(['Date issued: 03/04/2026', 'Expires on: 28/09/2027']);
    expect(issued?.sureness).not.toBe('sure');
    expect(goodThrough?.value).toBe('2027-09-28');
  });
});
