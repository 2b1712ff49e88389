import { describe, expect, test } from 'vitest';
import { currentEdition, readErrand } from '../../core/readiness/index.ts';
import type { Day } from '../../core/vocabulary/days.ts';
import type { LotEvent } from '../../core/vocabulary/lot.ts';
import type { Clock, VisitOutcome } from '../../core/vocabulary/practice.ts';
import { clocked, d, edition, errand, kind, lot, need, paper, practice } from '../readiness/making.ts';
import { label, type Place, throughOf, to180 } from './place-clocks.ts';

type Inspections = readonly (readonly [Day, VisitOutcome])[];

const begun: readonly LotEvent[] = [{ event: 'construction-begun', day: d('2026-02-10') }];
const issued = d('2026-01-15');
const start: Clock = { label: 'start', sort: 'start_by', span: to180, unless: 'construction-begun' };

describe('more building permits', () => {
  test('in Eloy, Arizona, 180 days, and 180 more from a passed first inspection', () => {
    // eloyaz.gov FAQ 167.
    const eloy: Place = { clocks: [{ label, sort: 'idle', span: to180, since: 'approved inspection' }] };
    const passed: Inspections = [[d('2026-03-02'), 'pass']];
    expect(throughOf(eloy, { issued })).toBe('2026-07-14');
    expect(throughOf(eloy, { issued, inspections: passed }, d('2026-04-01'))).toBe('2026-08-29');
  });

  test('one county gives 180 days to start and then 365 from the last inspection', () => {
    // A county at rideicats.com, FAQ 96.
    const county: Place = { clocks: [start, { label, sort: 'idle', span: { days: 365 }, since: 'inspection' }] };
    const failed: Inspections = [[d('2026-06-01'), 'fail']];
    expect(throughOf(county, { issued })).toBe('2026-07-14');
    expect(throughOf(county, { issued, events: begun, inspections: failed }, d('2026-07-01'))).toBe('2027-06-01');
  });

  test('in San Juan County, Washington, it is renewed each year on the day of issue, and no bill is sent', () => {
    // A county form at businessdocbox.com 73688160. Years are counted from the first day, so 29 February comes back.
    const juan: Place = {
      clocks: [{ label, sort: 'lasts', span: { years: 1 } }],
      extension: { by: 'extension', adds: { years: 1 }, times: 10, askedBeforeLapse: true },
    };
    const leap = d('2024-02-29');
    expect(throughOf(juan, { issued: leap }, d('2024-03-01'))).toBe('2025-02-28');
    expect(throughOf(juan, { issued: leap, extensions: [d('2025-02-20')] }, d('2025-03-01'))).toBe('2026-02-28');
  });

  test('in West St Paul, Minnesota, the outside of a house is done in 180 days', () => {
    // West St Paul code, 436.
    const paul: Place = { clocks: [{ label, sort: 'finish_by', span: to180, unless: 'outside-done' }] };
    expect(throughOf(paul, { issued })).toBe('2026-07-14');
    expect(
      throughOf(paul, { issued, events: [{ event: 'outside-done', day: d('2026-07-14') }] }, d('2026-08-01')),
    ).toBe('for good');
  });

  test('in Huntington, New York, an application dormant for a year is abandoned without notice', () => {
    // huntingtonny.gov, 18926.
    const huntington: Place = { clocks: [{ label, sort: 'idle', span: { years: 1 }, since: 'inspection' }] };
    expect(throughOf(huntington, { issued })).toBe('2027-01-15');
  });

  test('temporary power of one Tennessee utility runs two years', () => {
    // fpu-tn.com/electric; the state's electrical inspection comes first.
    expect(throughOf({ clocks: [{ label, sort: 'lasts', span: { years: 2 } }] }, { issued })).toBe('2028-01-15');
  });
});

describe('more septic and well permits', () => {
  test('Churchill County, Nevada, and Georgia: a year', () => {
    // churchillcounty.org FAQ 68; Georgia 12 months from an exam page, a weak source.
    for (const span of [{ years: 1 }, { months: 12 }])
      expect(throughOf({ clocks: [{ label, sort: 'lasts', span }] }, { issued })).toBe('2027-01-15');
  });

  test('in Florida an amended permit runs 180 days longer, or 90 for a repair (text of July 2025)', () => {
    // law.cornell.edu, R. 62-6.003.
    const amended = (days: number): Place => ({
      clocks: [{ label, sort: 'lasts', span: { months: 18 } }],
      extension: { by: 'extension', adds: { days }, times: 1, askedBeforeLapse: true },
    });
    const given = { issued: d('2025-08-31'), extensions: [d('2026-12-01')] };
    expect(throughOf(amended(180), given, d('2027-01-01'))).toBe('2027-08-27');
    expect(throughOf(amended(90), given, d('2027-01-01'))).toBe('2027-05-29');
  });

  test('soil tests of one unnamed place count three years for a lot in a subdivision', () => {
    // whburruss3inc.com/directions, a weak source.
    expect(throughOf({ clocks: [{ label, sort: 'lasts', span: { years: 3 } }] }, { issued })).toBe('2029-01-15');
  });

  test('a well permit of Washtenaw County, Michigan, lapses after a year and can be brought back within two', () => {
    // meetings.washtenaw.org FAQ 356.
    const rules = practice({
      papers: [clocked('well', [{ sort: 'lasts', span: { years: 1 } }], { revival: { within: { years: 2 } } })],
      errands: [errand('show', { needs: [need('well')] })],
    });
    const view = lot({ papers: [paper('well', [edition('one', { issued: d('2025-01-10') })])] });
    const remedy = (day: Day): string =>
      readErrand('show', { practice: rules, lot: view, day })
        .findings.map(({ say, why, remedy: way }) => `${say} ${why} ${way.say}`)
        .join(' ');
    expect(remedy(d('2026-06-01'))).toMatch(/brought back|back to life|10 Jan 2028/i);
    expect(remedy(d('2028-02-01'))).not.toMatch(/10 Jan 2028/);
  });
});

describe('more cover and certificates', () => {
  test('written and oral binders: New Mexico 90 and 15 days, New Jersey 60 and 10', () => {
    // New Mexico 59A-18-22 (legalfix.com); New Jersey 17:36-5.16 (casetext.com).
    const ends = [90, 15, 60, 10].map((days) =>
      throughOf({ clocks: [{ label, sort: 'lasts', span: { days } }] }, { issued: d('2026-05-01') }, d('2026-05-02')),
    );
    expect(ends).toEqual(['2026-07-30', '2026-05-16', '2026-06-30', '2026-05-11']);
  });

  test('one form of builder’s risk ends at the earliest of its date, 90 days after completion, 60 after moving in', () => {
    // sciroccogroup.com, policy period; policies differ.
    const policy: Place = {
      clocks: [
        { label: 'printed', sort: 'stated' },
        { label: 'completion', sort: 'until', event: 'house-complete', plus: { days: 90 } },
        { label: 'use', sort: 'until', event: 'moved-in', plus: { days: 60 } },
      ],
    };
    const given = { issued, edition: { goodThrough: d('2027-01-15') } };
    const complete: LotEvent = { event: 'house-complete', day: d('2026-09-01') };
    const moved: LotEvent = { event: 'moved-in', day: d('2026-09-10') };
    expect(throughOf(policy, given)).toBe('2027-01-15');
    expect(throughOf(policy, { ...given, events: [complete] }, d('2026-09-20'))).toBe('2026-11-30');
    expect(throughOf(policy, { ...given, events: [complete, moved] }, d('2026-09-20'))).toBe('2026-11-09');
  });

  test('of two elevation certificates for one building the one certified latest counts, whichever came in last', () => {
    // NFIP Flood Insurance Manual, April 2016, Certifications (vdocuments.net).
    const rules = practice({ papers: [kind('certificate')] });
    const late = edition('late', { issued: d('2026-06-01'), received: d('2026-06-02') });
    const early = edition('early', { issued: d('2026-03-01'), received: d('2026-07-02') });
    const view = lot({ papers: [paper('certificate', [late, early])] });
    const asked = { practice: rules, lot: view, day: d('2026-07-10') };
    expect(currentEdition({ kind: 'certificate', subject: undefined }, asked)?.id).toBe('late');
  });

  test('a finished one has no last day of its own, and goes stale when the building changes', () => {
    // bettersworthandassociates.com and cardinalsurveying.com: private firms, not the federal office.
    const certificate: Place = { clocks: [{ label, sort: 'until', event: 'site-changed' }] };
    expect(throughOf(certificate, { issued })).toBe('for good');
    expect(
      throughOf(certificate, { issued, events: [{ event: 'site-changed', day: d('2026-05-04') }] }, d('2026-06-01')),
    ).toBe('2026-05-03');
  });
});
