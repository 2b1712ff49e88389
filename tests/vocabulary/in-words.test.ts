import { describe, expect, it } from 'vitest';
import { asDay, leadInWords, parseLead } from '../../core/vocabulary/days.ts';
import { validityInWords, withThemInWords, wordsOfErrand } from '../../core/vocabulary/in-words.ts';

describe('words for how long', () => {
  it('a lead time is written as it is read', () => {
    for (const words of ['10 to 20 working days', '3 weeks', 'same day', '1 day', '1 to 2 months', '0 to 5 days']) {
      const lead = parseLead(words);
      if (lead === undefined) throw new Error(`"${words}" was not read.`);
      expect(leadInWords(lead)).toBe(words);
      expect(parseLead(leadInWords(lead))).toEqual(lead);
    }
  });

  it('a validity says the last good day, and the day to go by where that is a weekend', () => {
    const clocks = [] as const;
    expect(validityInWords({ good: true, through: '2026-03-13', clocks })).toBe('good through 13 Mar 2026');
    expect(validityInWords({ good: true, through: '2026-03-14', safeThrough: '2026-03-13', clocks })).toBe(
      'good through Sat 14 Mar 2026; go by Fri 13 Mar 2026',
    );
    expect(validityInWords({ good: false, through: '2026-02-02', clocks })).toBe('lapsed after 2 Feb 2026');
    expect(validityInWords({ good: false, through: 'ended', clocks })).toBe('ended');
    expect(validityInWords({ good: true, through: 'for good', clocks })).toBe('good, with no end');
    expect(validityInWords({ good: 'unknown', through: 'unknown', clocks })).toBe('how long is not known');
  });

  it('what lies with an office says since when, and when an answer is due, was due, or that nobody knows', () => {
    const lies = { since: '2027-02-23', due: '2027-03-09' } as const;
    expect(withThemInWords(lies, '2027-02-26')).toBe(
      'with them since Tue 23 Feb 2027; their answer: due by Tue 9 Mar 2027',
    );
    expect(withThemInWords(lies, '2027-03-10')).toBe(
      'with them since Tue 23 Feb 2027; their answer: was due by Tue 9 Mar 2027, 1 day late: ask after it',
    );
    expect(withThemInWords({ since: '2027-02-23' }, '2027-03-10')).toBe(
      'with them since Tue 23 Feb 2027; their answer: not known when: ask after it',
    );
  });
});

it('an errand tells the word it stands on, then each other word with the values it was given on', () => {
  const handout = { on: 'published', source: 'County handout', read: asDay('2026-01-12') } as const;
  const amsel = { on: 'the office told us', who: 'R. Amsel', day: asDay('2026-04-02') } as const;
  const said = { fee: handout, fee_note: handout, takes: handout, bring: amsel };
  const [own, ...others] = wordsOfErrand({ basis: { on: 'common practice' }, said });
  expect(own).toMatch(/^common practice/);
  expect(others).toEqual([
    'fee, how long it takes: County handout (read 12 Jan 2026)',
    'what to take along: R. Amsel told you on 2 Apr 2026',
  ]);
  expect(wordsOfErrand({ basis: handout })).toHaveLength(1);
});
