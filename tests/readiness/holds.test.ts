import { describe, expect, test } from 'vitest';
import { errandState, readErrand, readHolds, readWay, validityOf } from '../../core/readiness/index.ts';
import type { Day } from '../../core/vocabulary/days.ts';
import type { Edition, Visit } from '../../core/vocabulary/lot.ts';
import type { Errand, Hold, VisitOutcome } from '../../core/vocabulary/practice.ts';
import { clocked, common, d, edition, errand, kind, lot, paper, practice, visit } from './making.ts';

const day = d('2026-04-14');
const working = (count: number): Errand['takes'] => ({ from: { workingDays: 1 }, to: { workingDays: count } });

describe('holds', () => {
  const hold: Hold = {
    id: 'pour',
    title: 'Before you pour',
    event: 'poured',
    until: ['footing'],
    say: 'Concrete hides the steel.',
    basis: common,
  };
  const rules = practice({
    errands: [errand('footing', { inspection: true, takes: working(2) }), errand('pour', { causes: ['poured'] })],
    holds: [hold],
    events: [{ id: 'poured', title: 'Concrete poured' }],
  });

  test('what can not be undone is refused and final, on common practice too', () => {
    const reading = readErrand('pour', { practice: rules, lot: lot(), day });
    expect(reading.findings[0]).toMatchObject({
      weight: 'refused',
      final: true,
      sort: 'errand not settled',
      remedy: { errand: 'footing' },
    });
    expect(reading.state).toBe("can't go yet");
    expect(readHolds({ practice: rules, lot: lot(), day })).toMatchObject([
      { hold: 'pour', waitsFor: ['footing'], findings: [] },
    ]);
    expect(readWay({ practice: rules, lot: lot(), day }).stops.find((stop) => stop.errand === 'pour')?.earliest).toBe(
      '2026-04-16',
    );
  });

  test('a passed inspection opens it', () => {
    const view = lot({ visits: [visit('footing', d('2026-04-10'), { outcome: 'pass' })] });
    expect(readErrand('pour', { practice: rules, lot: view, day }).findings).toEqual([]);
    expect(readHolds({ practice: rules, lot: view, day })[0]?.waitsFor).toEqual([]);
  });

  test('poured before the inspection stays told, final, at the inspection', () => {
    const view = lot({ events: [{ event: 'poured', day: d('2026-04-12') }] });
    const [found] = readErrand('footing', { practice: rules, lot: view, day }).findings;
    expect(found).toMatchObject({ weight: 'refused', final: true });
    expect(found?.say).toContain('noted on 12 Apr 2026');
    expect(readHolds({ practice: rules, lot: view, day })[0]).toMatchObject({
      happened: '2026-04-12',
      findings: [{ final: true }],
    });
  });

  test('a hold that hangs on an unanswered question stays shut, and asks', () => {
    const unsure = practice({
      ...rules,
      errands: Object.values(rules.errands),
      holds: [{ ...hold, when: { op: 'is', question: 'slab', values: [true] } }],
      offices: [],
      papers: [],
      questions: [],
      events: [],
      agreements: [],
      duties: [],
    });
    expect(readErrand('pour', { practice: unsure, lot: lot(), day }).findings[0]).toMatchObject({
      weight: 'ask first',
      final: true,
    });
  });
});

describe('a kept inspection result', () => {
  const hold: Hold = {
    id: 'cover',
    title: 'Before you cover',
    event: 'covered',
    until: ['framing'],
    say: 'Boards hide the frame.',
    basis: common,
  };
  const rules = practice({
    papers: [kind('report')],
    errands: [errand('framing', { inspection: true, yields: ['report'] }), errand('board', { causes: ['covered'] })],
    holds: [hold],
    events: [{ id: 'covered', title: 'Walls covered' }],
  });
  const april = (date: number): Day => d(`2026-04-${String(date).padStart(2, '0')}`);
  const report = (id: string, said: string | undefined, extra: Partial<Edition> = {}): Edition =>
    edition(id, {
      issued: april(8),
      facts: said === undefined ? {} : { result: { sort: 'text', value: said } },
      ...extra,
    });
  const isOpen = (editions: readonly Edition[], visits: readonly Visit[] = []): boolean => {
    const view = lot({ papers: [paper('report', editions)], visits });
    const open = readHolds({ practice: rules, lot: view, day })[0]?.waitsFor.length === 0;
    // The hold, the inspection itself and the errand behind the hold tell one story.
    expect(errandState('framing', { practice: rules, lot: view, day })).toBe(open ? 'settled' : 'can go');
    expect(errandState('board', { practice: rules, lot: view, day })).toBe(open ? 'can go' : "can't go yet");
    return open;
  };

  test.each(['passed', 'Pass', 'APPROVED', 'Approved as noted', 'pass with corrections'])(
    'opens the hold where it says "%s", though no visit was noted',
    (said) => expect(isOpen([report('r', said)])).toBe(true),
  );

  test.each([
    'failed',
    'FAIL: missing ties at the ridge',
    'not approved',
    'Not passed',
    'refused',
    'partial',
    'Partial pass',
    'passed except the porch',
    'Passed in part, re-inspect the stairs',
    'rejected',
    'see remarks',
    'surpassed',
    undefined,
  ])('keeps the hold shut where it says "%s"', (said) => expect(isOpen([report('r', said)])).toBe(false));

  test('counts by its newest edition, and by the approval its own office noted on it', () => {
    const failed = report('one', 'failed', { issued: april(3) });
    expect(isOpen([failed, report('two', 'passed')])).toBe(true);
    expect(isOpen([report('one', 'passed', { issued: april(3) }), report('two', 'failed')])).toBe(false);
    const standing = { office: 'desk', word: 'approved', day: april(9) } as const;
    expect(isOpen([report('r', undefined, { standings: [standing] })])).toBe(true);
    expect(isOpen([report('r', undefined, { standings: [{ ...standing, office: 'other' }] })])).toBe(false);
    expect(isOpen([report('r', 'failed', { standings: [standing] })])).toBe(false);
  });

  test('never outweighs a visit that failed or passed in part, and a later failing result outweighs a pass', () => {
    const visited = (date: number, outcome: VisitOutcome): Visit => visit('framing', april(date), { outcome });
    expect(isOpen([report('r', 'passed')], [visited(9, 'fail')])).toBe(false);
    expect(isOpen([report('r', 'passed')], [visited(6, 'fail')])).toBe(false);
    expect(isOpen([report('r', 'passed')], [visited(8, 'partial')])).toBe(false);
    expect(isOpen([report('r', 'passed')], [visited(8, 'no access')])).toBe(true);
    expect(isOpen([report('r', 'failed')], [visited(10, 'pass')])).toBe(true);
    expect(isOpen([report('r', undefined)], [visited(8, 'letter in lieu')])).toBe(true);
    expect(isOpen([report('r', 'failed')], [visited(6, 'pass')])).toBe(false);
  });

  test('is told at its inspection and at the hold: record the visit, or have the work put right', () => {
    const read = (id: string, said: string | undefined) =>
      readErrand(id, { practice: rules, lot: lot({ papers: [paper('report', [report('r', said)])] }), day })
        .findings[0];
    expect(read('framing', undefined)).toMatchObject({
      weight: 'ask first',
      edition: 'r',
      remedy: { say: expect.stringContaining('record the visit') },
    });
    expect(read('framing', 'failed')?.say).toBe(
      '"The report" of 8 Apr 2026 says "failed": by itself it settles nothing.',
    );
    expect(read('board', undefined)).toMatchObject({
      weight: 'refused',
      final: true,
      remedy: { errand: 'framing', say: expect.stringContaining('say what they decided') },
    });
    expect(read('board', 'failed')).toMatchObject({
      final: true,
      remedy: { say: expect.stringContaining('Go on "Go for framing"') },
    });
    expect(read('framing', 'passed')).toBeUndefined();
  });

  test('that failed does not restart a clock that only approved inspections restart', () => {
    const idle = practice({
      papers: [kind('report'), clocked('card', [{ sort: 'idle', span: { days: 180 }, since: 'approved inspection' }])],
      errands: [errand('framing', { inspection: true, yields: ['report'], restarts: ['card'] })],
    });
    const through = (said: string) => {
      const card = edition('card', { issued: d('2026-01-15') });
      const view = lot({ papers: [paper('card', [card]), paper('report', [report('r', said)])] });
      return validityOf(card, { practice: idle, lot: view, day }).through;
    };
    expect(through('failed')).toBe('2026-07-14');
    expect(through('passed')).toBe('2026-10-05');
  });

  test('of no named area passes none of several', () => {
    const areas = practice({
      papers: [kind('report')],
      errands: [errand('framing', { inspection: true, each: 'area', yields: ['report'] })],
      holds: [hold],
      events: [{ id: 'covered', title: 'Walls covered' }],
    });
    const view = lot({
      subjects: ['upper', 'lower'].map((id) => ({ id, sort: 'area', title: id })),
      papers: [paper('report', [report('r', 'passed')])],
    });
    expect(readHolds({ practice: areas, lot: view, day })[0]?.waitsFor).toEqual(['framing']);
  });
});
