import { describe, expect, it } from 'vitest';
import { asDay } from '../../core/vocabulary/days.ts';
import { openOn } from '../../renderer/screens/today/hours.ts';

// Weekdays by the calendar of ISO 8601: 2026-04-14 was week 16, day 2, a Tuesday.
const tuesday = asDay('2026-04-14');
const friday = asDay('2026-04-17');
const sunday = asDay('2026-04-19');

describe('hours in words', () => {
  it.each([
    ['Tuesday and Thursday, 8:30 to 12:00', tuesday, true],
    ['Tuesday and Thursday, 8:30 to 12:00', friday, false],
    ['Monday to Thursday 8 to 4', friday, false],
    ['Mon-Fri, 8:00 to 16:30', friday, true],
    ['Mon-Fri, 8:00 to 16:30', sunday, false],
    ['Friday through Monday', sunday, true],
    ['weekdays, 7:00 to 15:30', friday, true],
    ['weekdays, 7:00 to 15:30', sunday, false],
    ['Mondays, Wednesdays; Fri 8 to 11', friday, true],
  ])('"%s" on %s: %s', (hours, day, open) => {
    expect(openOn(hours, day)).toBe(open);
  });

  it.each([
    '8:00 to 16:00',
    'one day a month',
    'until sunset',
    'by appointment',

    'Monday to Friday, closed the first Tuesday of a month',
  ])('does not guess at "%s"', (hours) => {
    expect(openOn(hours, tuesday)).toBeUndefined();
  });
});
