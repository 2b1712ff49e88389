import { describe, expect, test } from 'vitest';
import type { ErrandReading, Finding } from '../../core/vocabulary/finding.ts';
import { comesFirst, verdictInWords, verdictOf } from '../../core/vocabulary/verdict.ts';

const none = { own: false, comments: 0 } as const;

function finding(say: string, extra: Partial<Finding> = {}): Finding {
  const basis = { on: 'common practice' } as const;
  return { weight: 'questioned', sort: 'missing', say, why: '', basis, remedy: { say: '' }, final: false, ...extra };
}

function reading(state: ErrandReading['state'], findings: readonly Finding[] = []): ErrandReading {
  return { errand: 'apply', day: '2026-11-30', state, needs: [], firstDay: '2027-01-25', findings };
}

const application = finding('"Application" is not in hand.');
const energy = finding('"Energy report" is not in hand.', { remedy: { say: 'Go.', errand: 'energy-order' } });
const bedrooms = finding('Bedrooms: 4 on "House plans", 3 on "Septic permit".', { sort: 'disagree' });
const association = finding('"Association" is not in hand.', {
  weight: 'ask first',
  sort: 'may not apply',
  remedy: { say: 'Go.', errand: 'association' },
});
const comment = finding('Comment 1 is not answered.', { weight: 'refused', sort: 'not answered' });
const all = [application, energy, bedrooms, association];

describe('what an office will say, in a line', () => {
  test('never says that nothing would turn you away while something asked for is missing or contradicted', () => {
    for (const state of ["can't go yet", 'can go', 'sent back', 'left with them'] as const) {
      const said = verdictInWords(verdictOf(reading(state, all), none));
      expect(said).toContain('They may question 3 things. The first: "Application" is not in hand.');
      expect(said).not.toMatch(/nothing/i);
    }
    const one = verdictInWords(verdictOf(reading('can go', [bedrooms]), none));
    expect(one).toBe('They may question 1 thing. Bedrooms: 4 on "House plans", 3 on "Septic permit".');
  });

  test('counts the very things it lists under "First", those that may not be asked for apart', () => {
    const told = reading("can't go yet", all);
    expect(comesFirst(told).map(({ say, maybe }) => [say, maybe])).toEqual([
      ['"Application" is not in hand.', false],
      ['"Energy report" is not in hand.', false],
      ['"Association" is not in hand.', true],
    ]);
    expect(verdictOf(told, none).say).toBe(
      'Too early: 2 things come first, and 1 more if it applies. By what is on file, Mon 25 Jan 2027 at the earliest.',
    );
  });

  test('an errand that brings two papers comes first once', () => {
    const again = finding('"Rating" is not in hand.', { remedy: energy.remedy });
    expect(comesFirst(reading("can't go yet", [energy, again]))).toHaveLength(1);
  });

  test('sent back, it still tells what comes first and the first day, comments answered or not', () => {
    const open = verdictInWords(verdictOf(reading('sent back', [comment, ...all]), { own: false, comments: 1 }));
    expect(open).toContain('They sent it back with 1 comment to answer. Too early: 2 things come first');
    const answered = verdictInWords(verdictOf(reading('sent back', all), none));
    expect(answered).toContain('no comment is left to answer. Too early: 2 things come first');
    expect(answered).toContain('Mon 25 Jan 2027 at the earliest');
    expect(comesFirst(reading('sent back', [comment, ...all]))).toHaveLength(3);
  });

  test('an inspection not passed has corrections, told in words of its own', () => {
    const failed = { ...reading('sent back', [comment]), cameBack: 'not passed' } as const;
    expect(verdictOf(failed, { own: false, comments: 2 }).say).toBe('They did not pass it: 2 corrections to answer.');
    expect(verdictOf(failed, none).say).toBe('They did not pass it; no correction is left to answer.');
  });

  test('what would turn one away is counted before what they may question', () => {
    const lapsed = finding('"Deed" has lapsed.', { weight: 'refused', sort: 'lapsed' });
    const { tone, say, first, more } = verdictOf(reading("can't go yet", [lapsed, ...all]), none);
    expect([tone, say, first]).toEqual(['red', 'You would be turned away: 1 reason.', '"Deed" has lapsed.']);
    expect(more).toBe('They may question 3 things. 1 thing to ask about first.');
  });

  test('too soon is told before the rest, and a clean errand of an office is still the office’s to decide', () => {
    expect(verdictOf(reading('can go'), { ...none, soon: 'Too soon today.' })).toMatchObject({
      tone: 'ochre',
      say: 'Too soon today.',
    });
    expect(verdictOf(reading('can go'), none).say).toContain('the office decides');
    expect(verdictOf(reading('can go'), { ...none, own: true }).say).toBe('Nothing on file speaks against it.');
  });
});
