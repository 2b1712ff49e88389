import { describe, expect, it } from 'vitest';
import { readErrand } from '../../core/readiness/index.ts';
import type { Day } from '../../core/vocabulary/days.ts';
import type { Finding } from '../../core/vocabulary/finding.ts';
import { lotOn } from './lot-of-story.ts';

/** What would be refused or questioned; the errand's own visit is left out, as the packet is made before it. */
function troubles(errand: string, day: Day): readonly Finding[] {
  const { lot, practice } = lotOn(day);
  const before = { ...lot, visits: lot.visits.filter((visit) => visit.errand !== errand) };
  const { findings } = readErrand(errand, { practice, lot: before, day });
  return findings.filter((finding) => finding.weight === 'refused' || finding.weight === 'questioned');
}

const about = (findings: readonly Finding[]): string[] =>
  findings.map((finding) => `${finding.sort}: ${finding.agreement ?? finding.kind ?? finding.say}`).sort();

describe('The story of the invented lot', () => {
  it('has, on its own day, a permit packet with the promised faults and no others', () => {
    const found = about(troubles('permit-apply', '2026-04-14'));
    expect(found).toEqual([
      'disagree: application-bedrooms',
      'disagree: bedrooms',
      'lapsing: builders-risk-binder',
      'missing: driveway-permit',
      'stale: cost-breakdown',
      'stale: truss-sheets',
    ]);
  });

  it('counts four bedrooms on the plans against three on the septic permit', () => {
    const said = troubles('permit-apply', '2026-04-14').map((finding) => finding.say);
    expect(said.some((say) => /4 on "House plans", 3 on "Septic permit"/.test(say))).toBe(true);
  });

  it('has nothing left that would be refused or questioned two days later', () => {
    expect(troubles('permit-apply', '2026-04-16')).toEqual([]);
  });

  it('lacks one paper for the walkthrough in its week, and none on the day', () => {
    expect(about(troubles('occupancy-walk', '2027-02-26'))).toEqual(['missing: driveway-final']);
    expect(troubles('occupancy-walk', '2027-03-04')).toEqual([]);
  });

  it('lacks the certificate of occupancy for the insurer until the house has passed', () => {
    expect(about(troubles('insurance-convert', '2027-02-26'))).toContain('missing: occupancy-certificate');
    expect(about(troubles('insurance-convert', '2027-03-08')).filter((one) => !one.startsWith('duty'))).toEqual([]);
  });

  it("keeps the clerk's word about three sets of plans, with name and day", () => {
    const needOn = (day: Day) =>
      Object.values(lotOn(day).practice.errands)
        .find((errand) => errand.id === 'permit-apply')
        ?.needs.find((need) => need.id === 'plans');
    const [before, after] = [needOn('2026-04-01'), needOn('2026-04-14')];
    expect(before?.copies).toBe(2);
    expect(after?.copies).toBe(3);
    expect(after?.basis).toMatchObject({ on: 'the office told us', who: 'R. Amsel', day: '2026-04-02' });
  });
});
