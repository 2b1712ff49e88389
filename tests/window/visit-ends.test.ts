import { expect, it } from 'vitest';
import { outcomesOf } from '../../core/vocabulary/coming-out.ts';
import type { VisitOutcome } from '../../core/vocabulary/practice.ts';
import { endsOf } from '../../renderer/kit/visit-ends.ts';

function titles(about: {
  readonly inspection: boolean;
  readonly outcomes?: readonly VisitOutcome[];
  readonly own?: boolean;
}): readonly string[] {
  const { inspection, own } = about;
  return endsOf({ inspection, own, outcomes: outcomesOf(about) }).map(({ title }) => title);
}

// Fixed bug: every going to a counter could be settled by a letter in lieu of an inspection nobody makes there.
it('a letter in lieu is no end of an errand where nobody inspects, unless its practice lists it', () => {
  expect(titles({ inspection: false })).toEqual([
    'Planned',
    'Left with them',
    'Settled',
    'Sent back',
    'Turned away',
    'Cancelled',
  ]);
  expect(titles({ inspection: false, outcomes: ['pass', 'letter in lieu'] })).toContain('Letter in lieu');
  expect(titles({ inspection: false, own: true })).toEqual(['Planned', 'Settled', 'Cancelled']);
});

it('a letter in lieu is an end of an inspection whose words are open, or name it', () => {
  expect(titles({ inspection: true })).toContain('Letter in lieu');
  expect(titles({ inspection: true, outcomes: ['pass', 'fail', 'letter in lieu'] })).toEqual([
    'Booked',
    'Passed',
    'Not passed',
    'Letter in lieu',
    // May befall any visit, listed or not.
    'Cancelled',
  ]);
  expect(titles({ inspection: true, outcomes: ['pass', 'fail'] })).not.toContain('Letter in lieu');
});
