import { describe, expect, test } from 'vitest';
import { validityOf } from '../../core/readiness/index.ts';
import { addDays, type Day } from '../../core/vocabulary/days.ts';
import type { LotEvent } from '../../core/vocabulary/lot.ts';
import type { Clock, VisitOutcome } from '../../core/vocabulary/practice.ts';
import { clocked, d, edition, lot, paper, practice } from '../readiness/making.ts';
import { label, type Place, throughOf, to180 } from './place-clocks.ts';

describe('septic permits', () => {
  /** Florida 62-6.003: 18 months; 90 days more once building construction has begun (law.cornell.edu, R. 62-6.003). */
  const florida: Place = {
    clocks: [{ label, sort: 'lasts', span: { months: 18 } }],
    extension: { by: 'extension', adds: { days: 90 }, times: 1, askedBeforeLapse: true, after: 'construction-begun' },
  };

  test('in Florida run 18 months, clamped at a short month', () => {
    expect(throughOf(florida, { issued: d('2025-08-31') })).toBe('2027-02-28');
    expect(throughOf(florida, { issued: d('2022-08-31') }, d('2023-01-01'))).toBe('2024-02-29');
  });

  test('in Florida run 90 days longer, counted from the original end, once building has begun', () => {
    const begun: LotEvent[] = [{ event: 'construction-begun', day: d('2026-11-02') }];
    const extended = { issued: d('2025-08-31'), extensions: [d('2027-02-01')], events: begun };
    expect(throughOf(florida, extended, d('2027-03-01'))).toBe('2027-05-29');
    expect(throughOf(florida, { ...extended, events: [] }, d('2027-03-01'))).toBe('2027-02-28');
  });

  test('in Tennessee run three years from issue', () => {
    // Tennessee 0400-48-01-.06(4), regulations.justia.com.
    expect(throughOf({ clocks: [{ label, sort: 'lasts', span: { years: 3 } }] }, { issued: d('2024-02-29') })).toBe(
      '2027-02-28',
    );
  });

  test('in Virginia end after 18 months or when the site changes, whichever comes first', () => {
    // 12VAC5-610-300, varules.elaws.us.
    const virginia: Place = {
      clocks: [
        { label, sort: 'lasts', span: { months: 18 } },
        { label: 'site', sort: 'until', event: 'site-changed' },
      ],
    };
    expect(throughOf(virginia, { issued: d('2025-06-10') })).toBe('2026-12-10');
    const changed: LotEvent[] = [{ event: 'site-changed', day: d('2026-01-20') }];
    expect(throughOf(virginia, { issued: d('2025-06-10'), events: changed })).toBe('2026-01-19');
  });

  test('in North Carolina run five years', () => {
    // New Hanover County FAQ 101; Orange County record 51878.
    expect(throughOf({ clocks: [{ label, sort: 'lasts', span: { years: 5 } }] }, { issued: d('2023-01-15') })).toBe(
      '2028-01-15',
    );
  });

  test('in Washtenaw County, Michigan, the work must be finished within a year', () => {
    // meetings.washtenaw.org FAQ 356.
    const washtenaw: Place = { clocks: [{ label, sort: 'finish_by', span: { years: 1 }, unless: 'septic-finished' }] };
    expect(throughOf(washtenaw, { issued: d('2025-05-01') })).toBe('2026-05-01');
    const finished: LotEvent[] = [{ event: 'septic-finished', day: d('2025-11-03') }];
    expect(throughOf(washtenaw, { issued: d('2025-05-01'), events: finished })).toBe('for good');
    const late: LotEvent[] = [{ event: 'septic-finished', day: d('2026-05-02') }];
    expect(throughOf(washtenaw, { issued: d('2025-05-01'), events: late }, d('2026-06-01'))).toBe('2026-05-01');
  });
});

describe('building permits', () => {
  const start: Clock = { label: 'start', sort: 'start_by', span: to180, unless: 'construction-begun' };
  const begun: readonly LotEvent[] = [{ event: 'construction-begun', day: d('2026-01-20') }];
  const issued = d('2026-01-15');

  test('180 days are 180 days: from 15 January to 14 July, and across a leap day', () => {
    // Oldsmar, Florida, FAQ 102: 180 days from issue or from the last successful inspection.
    const oldsmar: Place = { clocks: [{ label, sort: 'idle', span: to180, since: 'approved inspection' }] };
    expect(throughOf(oldsmar, { issued })).toBe('2026-07-14');
    expect(throughOf(oldsmar, { issued: d('2023-09-01') }, d('2023-10-01'))).toBe('2024-02-28');
    expect(throughOf(oldsmar, { issued: d('2024-09-01') }, d('2024-10-01'))).toBe('2025-02-28');
  });

  test('180 days and six months differ', () => {
    // Holden Beach, North Carolina (as G.S. 160D-1111): 6 months to start.
    const holden: Place = { clocks: [{ ...start, span: { months: 6 } }] };
    expect(throughOf(holden, { issued })).toBe('2026-07-15');
  });

  test('in Oldsmar, Florida, a passed inspection restarts the clock and a failed one does not', () => {
    const oldsmar: Place = { clocks: [{ label, sort: 'idle', span: to180, since: 'approved inspection' }] };
    const day = d('2026-06-01');
    expect(throughOf(oldsmar, { issued, inspections: [[d('2026-03-02'), 'pass']] }, day)).toBe('2026-08-29');
    expect(throughOf(oldsmar, { issued, inspections: [[d('2026-03-02'), 'fail']] }, day)).toBe('2026-07-14');
  });

  test('in Deltona, Florida, work must start in 180 days and then have an approved inspection in every 180', () => {
    // deltona.egovhost2.com, 2019-01-11.
    const deltona: Place = { clocks: [start, { label, sort: 'idle', span: to180, since: 'approved inspection' }] };
    const inspections: readonly (readonly [Day, VisitOutcome])[] = [
      [d('2026-03-02'), 'partial'],
      [d('2026-04-20'), 'fail'],
    ];
    expect(throughOf(deltona, { issued, events: begun, inspections }, d('2026-06-01'))).toBe('2026-08-29');
  });

  test('in Churchill County, Nevada, any inspection restarts the clock, but not one where nobody got in', () => {
    // churchillcounty.org FAQ 68: 180 days from issue or last inspection.
    const churchill: Place = { clocks: [{ label, sort: 'idle', span: to180, since: 'inspection' }] };
    expect(throughOf(churchill, { issued, inspections: [[d('2026-03-02'), 'fail']] }, d('2026-06-01'))).toBe(
      '2026-08-29',
    );
    expect(throughOf(churchill, { issued, inspections: [[d('2026-03-02'), 'no access']] }, d('2026-06-01'))).toBe(
      '2026-07-14',
    );
    expect(throughOf(churchill, { issued, inspections: [[d('2026-03-02'), 'cancelled']] }, d('2026-06-01'))).toBe(
      '2026-07-14',
    );
  });

  test('in Green Cove Springs, Florida, the house is complete in 180 days or inspected in every 180', () => {
    // greencovesprings.com FAQ 72.
    const greenCove: Place = { clocks: [{ label, sort: 'idle', span: to180, since: 'inspection' }] };
    expect(throughOf(greenCove, { issued, inspections: [[d('2026-07-14'), 'pass']] }, d('2026-08-01'))).toBe(
      '2027-01-10',
    );
  });

  test('in San Bernardino County, California, one year to start, one year idle, one extension of 180 days', () => {
    // lus.sbcounty.gov, "How long is a building permit good for?".
    const bernardino: Place = {
      clocks: [
        { ...start, span: { months: 12 } },
        { label, sort: 'idle', span: { months: 12 }, since: 'inspection' },
      ],
      extension: { by: 'extension', adds: to180, times: 1, askedBeforeLapse: true },
    };
    expect(throughOf(bernardino, { issued })).toBe('2027-01-15');
    expect(throughOf(bernardino, { issued, extensions: [d('2026-12-01')] }, d('2027-02-01'))).toBe('2027-07-14');
    expect(throughOf(bernardino, { issued, extensions: [d('2026-12-01'), d('2027-06-01')] }, d('2027-06-02'))).toBe(
      '2027-07-14',
    );
  });

  test('in West St Paul, Minnesota, an extension asked for after the end gives nothing', () => {
    // West St Paul code, 436: one extension of at most 180 days, asked for before expiry.
    const westStPaul: Place = {
      clocks: [{ ...start }],
      extension: { by: 'extension', adds: to180, times: 1, askedBeforeLapse: true },
    };
    expect(throughOf(westStPaul, { issued, extensions: [d('2026-07-14')] }, d('2026-08-01'))).toBe('2027-01-10');
    expect(throughOf(westStPaul, { issued, extensions: [d('2026-07-15')] }, d('2026-08-01'))).toBe('2026-07-14');
  });

  test('in Gretna, Nebraska, a start in 180 days and the end in a year, whatever is inspected', () => {
    // gretnane.org FAQ 61.
    const gretna: Place = {
      clocks: [start, { label: 'finish', sort: 'finish_by', span: { years: 1 }, unless: 'house-complete' }],
    };
    const inspections: readonly (readonly [Day, VisitOutcome])[] = [[d('2026-12-01'), 'pass']];
    expect(throughOf(gretna, { issued, events: begun, inspections }, d('2027-01-01'))).toBe('2027-01-15');
    expect(throughOf(gretna, { issued })).toBe('2026-07-14');
  });
});

describe('driveways and cover', () => {
  test('in South Dakota a driveway permit ends unless work is under way in a year; one more year on request', () => {
    // South Dakota 70:09:03:01, sdlegislature.gov.
    const dakota: Place = {
      clocks: [{ label, sort: 'start_by', span: { years: 1 }, unless: 'driveway-begun' }],
      extension: { by: 'extension', adds: { years: 1 }, times: 1, askedBeforeLapse: true },
    };
    const issued = d('2025-02-28');
    expect(throughOf(dakota, { issued })).toBe('2026-02-28');
    expect(throughOf(dakota, { issued, extensions: [d('2026-02-10')] }, d('2026-03-01'))).toBe('2027-02-28');
  });

  test('a binder runs 30, 60 or 90 days from the day it takes effect', () => {
    // Alaska 21.42.240, Alabama 27-14-18 and Washington RCW 48.18.230: 90 days; New Jersey 17:36-5.16: 60; trade habit: 30.
    for (const [days, end] of [
      [30, '2026-05-31'],
      [60, '2026-06-30'],
      [90, '2026-07-30'],
    ] as const) {
      const binder: Place = { clocks: [{ label, sort: 'lasts', span: { days } }] };
      const given = { issued: d('2026-04-20'), edition: { effective: d('2026-05-01') } };
      expect(throughOf(binder, given, d('2026-05-02'))).toBe(end);
    }
  });

  test('the date printed on a federal form is not the day a completed certificate lapses', () => {
    // A filed FEMA elevation certificate carries the blank form's own expiry date (OMB 1660-0008).
    const certificate: Place = { clocks: [{ label, sort: 'for good' }] };
    const given = { issued: d('2025-03-01'), edition: { goodThrough: d('2025-06-30') } };
    expect(throughOf(certificate, given)).toBe('for good');
  });

  test('the last good day is still good, and the day after is not', () => {
    const rules = practice({ papers: [clocked('permit', [{ sort: 'lasts', span: to180 }])] });
    const view = lot({ papers: [paper('permit', [edition('one', { issued: d('2026-01-15') })])] });
    const [own] = view.papers[0]?.editions ?? [];
    if (own === undefined) throw new Error('The lot lost its edition.');
    expect(validityOf(own, { practice: rules, lot: view, day: d('2026-07-14') }).good).toBe(true);
    expect(validityOf(own, { practice: rules, lot: view, day: addDays('2026-07-14', 1) }).good).toBe(false);
  });
});
