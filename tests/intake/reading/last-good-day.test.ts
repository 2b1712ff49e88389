import { describe, expect, it } from 'vitest';
import { numberInWords } from '../../../core/intake/reading/periods.ts';
import { readingOf } from './written.ts';

const permit = (...lines: readonly string[]) =>
  readingOf(['# SEPTIC PERMIT', 'Permit No.: EH-26-04711', 'Date Issued: March 31, 2026', ...lines]);

describe('the last good day', () => {
  it.each([
    ['This permit is good for 18 months from the date of issue.', '2027-09-30'],
    ['This permit expires one year from date of issue.', '2027-03-31'],
    ['Valid for a period of eighteen (18) months after issuance.', '2027-09-30'],
    ['This authorization shall lapse 90 days from the date it was issued.', '2026-06-29'],
    ['This permit is valid for eleven months following approval.', '2027-02-28'],
    ['The permit expires twenty-four months after the date of issuance.', '2028-03-31'],
    ['Good for one hundred eighty (180) days from the date above.', '2026-09-27'],
  ])('is counted where a sentence gives a time, clamped to the month: %s', (sentence, day) => {
    // Counted by hand; months clamp to the month's end as ISO 8601 calendars do (Temporal, overflow constrain).
    expect(permit(sentence).goodThrough).toMatchObject({ value: day, sureness: 'sure' });
  });

  it.each([
    'This permit becomes void if work is not begun within 180 days.',
    'The permit is void where work is suspended for 180 days.',
    'Notice must be given 30 days before it expires.',
    'A valid permit of eighteen (12) months after issuance.',
    'Inspections are asked for within 24 hours.',
  ])('is not made up from another clock: %s', (sentence) => {
    expect(permit(sentence).goodThrough).toBeUndefined();
  });

  it.each([
    'Form EH-14 Rev. 05/2024 Form expires 12/31/2027',
    'OMB No. 1660-0000 Expiration Date: 11/30/2026',
    'This form valid until 06/30/2029',
    'My commission expires: November 30, 2028',
  ])('is never the blank form’s or the notary’s: %s', (line) => {
    expect(permit(line).goodThrough).toBeUndefined();
  });

  it('tells that the form’s own date was seen', () => {
    expect(permit('Form EH-14  Form expires 12/31/2027').notes).toEqual([
      '31 Dec 2027 is printed on the blank form itself and was not taken for the paper’s.'.replace('’', "'"),
    ]);
  });

  it('takes the paper’s own beside the form’s', () => {
    expect(permit('Expires: September 30, 2027', 'Form expires 12/31/2028').goodThrough).toMatchObject({
      value: '2027-09-30',
      sureness: 'sure',
    });
  });

  it('doubts a date and a sentence that disagree', () => {
    const { goodThrough } = permit(
      'Expires on: March 31, 2027',
      'This permit is good for 18 months from the date of issue.',
    );
    expect(goodThrough?.sureness).not.toBe('sure');
    expect(goodThrough?.otherwise).toContain('2027-09-30');
  });

  it('lets a date and a sentence that are one day apart agree', () => {
    const { goodThrough } = permit('Expires on: March 30, 2027', 'This permit expires one year from date of issue.');
    expect(goodThrough).toMatchObject({ value: '2027-03-30', sureness: 'sure' });
  });

  it('doubts dates that run backwards', () => {
    const { issued, goodThrough } = permit('Expires on: March 31, 2025');
    expect([issued?.sureness, goodThrough?.sureness]).toEqual(['likely', 'likely']);
  });

  it('reads numbers written out', () => {
    expect(['one', 'twelve', 'twenty-four', 'one hundred eighty', '18', 'many'].map(numberInWords)).toEqual([
      1,
      12,
      24,
      180,
      18,
      undefined,
    ]);
  });
});
