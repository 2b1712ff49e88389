import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readErrand, readWay } from '../../core/readiness/index.ts';
import { addDays, type Day } from '../../core/vocabulary/days.ts';
import type { Errand } from '../../core/vocabulary/practice.ts';
import { clocked, d, edition, errand, kind, lot, need, office, paper, practice, told, visit } from './making.ts';
import { lastStart } from './oracle/errands-oracle.ts';

const day = d('2026-04-14');
const weeks = (count: number): Errand['takes'] => ({ from: {}, to: { weeks: count } });
const working = (count: number): Errand['takes'] => ({ from: { workingDays: 1 }, to: { workingDays: count } });

describe('the way', () => {
  const rules = practice({
    papers: [kind('survey'), kind('septic'), kind('address'), kind('permit')],
    errands: [
      errand('survey-order', { yields: ['survey'], takes: weeks(2), fee: 90_000 }),
      errand('septic-apply', { yields: ['septic'], needs: [need('survey')], takes: working(10), fee: 40_000 }),
      errand('address-apply', { yields: ['address'], takes: working(3) }),
      errand('permit-apply', {
        yields: ['permit'],
        needs: [need('septic'), need('address')],
        takes: working(20),
        fee: 24_000,
      }),
    ],
    holidays: [d('2026-05-25')],
  });

  test('dates each errand after the slow end of what it waits for, in working days where the practice says so', () => {
    const way = readWay({ practice: rules, lot: lot(), day });
    expect(way.stops.map((stop) => [stop.errand, stop.state, stop.earliest, stop.done])).toEqual([
      ['survey-order', 'can go', '2026-04-14', '2026-04-28'],
      ['address-apply', 'can go', '2026-04-14', '2026-04-17'],
      ['septic-apply', "can't go yet", '2026-04-28', '2026-05-12'],
      ['permit-apply', "can't go yet", '2026-05-12', '2026-06-10'],
    ]);
    expect(way).toMatchObject({
      finish: '2026-06-10',
      feesKnown: 154_000,
      feesUnknown: 1,
      today: ['survey-order', 'address-apply'],
    });
    expect(way.stops.at(-1)?.waitsFor).toEqual(['septic-apply', 'address-apply']);
  });

  test('counts the days to spare back from the target, and the tightest errand comes first today', () => {
    const way = readWay({ practice: rules, lot: lot({ target: d('2026-06-15') }), day });
    expect(Object.fromEntries(way.stops.map((stop) => [stop.errand, stop.spare]))).toEqual({
      'survey-order': 3,
      'septic-apply': 3,
      'address-apply': 28,
      'permit-apply': 3,
    });
    expect(readWay({ practice: rules, lot: lot({ target: d('2026-06-01') }), day }).stops[0]?.spare).toBeLessThan(0);
  });

  test('a paper in hand takes its errand off the way, even where no visit was noted', () => {
    const view = lot({ papers: [paper('survey', [edition('s', { issued: d('2026-02-01') })])] });
    const way = readWay({ practice: rules, lot: view, day });
    expect(way.stops.find((stop) => stop.errand === 'survey-order')).toMatchObject({
      state: 'settled',
      earliest: undefined,
    });
    expect(way.stops.find((stop) => stop.errand === 'septic-apply')).toMatchObject({ state: 'can go', earliest: day });
  });

  test('what is left with an office is back at its slow end, and never before today', () => {
    const at = (visited: Day) => {
      const view = lot({ visits: [visit('address-apply', visited, { state: 'left with them' })] });
      return readWay({ practice: rules, lot: view, day }).stops.find((stop) => stop.errand === 'address-apply');
    };
    expect(at(d('2026-04-13'))).toMatchObject({ state: 'left with them', done: '2026-04-16' });
    expect(at(d('2026-03-02'))).toMatchObject({ state: 'left with them', done: day });
  });

  test('of two errands that would do, the one that is back first is waited for', () => {
    const either = practice({
      papers: [kind('well'), kind('letter')],
      errands: [
        errand('drill', { yields: ['well'], takes: weeks(6) }),
        errand('ask-water', { yields: ['letter'], takes: weeks(1) }),
        errand('apply', { needs: [need('water', { kinds: ['well', 'letter'] })] }),
      ],
    });
    expect(readWay({ practice: either, lot: lot(), day }).stops.find((stop) => stop.errand === 'apply')?.earliest).toBe(
      '2026-04-21',
    );
  });

  test('handing in and picking up are no loop, but an address given only with the permit is', () => {
    // Banks County, Georgia, gives the address during permit review; others want it before.
    const loop = practice({
      papers: [kind('permit'), kind('address')],
      errands: [
        errand('permit-apply', { yields: ['permit'], needs: [need('address')] }),
        errand('address-apply', { yields: ['address'], needs: [need('permit')] }),
        errand('walk', { needs: [need('permit')] }),
      ],
    });
    const asked = { practice: loop, lot: lot(), day };
    expect(() => readWay(asked)).toThrow(
      /wait for each other: "Go for (permit|address)-apply" waits for "Go for (permit|address)-apply" waits for/,
    );
    expect(readErrand('permit-apply', asked).findings[0]).toMatchObject({
      sort: 'missing',
      remedy: { errand: 'address-apply' },
    });
    const halves = practice({
      papers: [kind('receipt'), kind('permit'), kind('address')],
      errands: [
        errand('permit-apply', { yields: ['receipt'] }),
        errand('address-apply', { yields: ['address'], needs: [need('receipt')] }),
        errand('permit-pick-up', {
          yields: ['permit'],
          needs: [need('address')],
          before: [{ id: 'b', after: { errand: 'permit-apply' }, basis: told }],
        }),
      ],
    });
    expect(readWay({ practice: halves, lot: lot(), day }).today).toEqual(['permit-apply']);
  });

  test('a paper that will have lapsed when an errand can first use it is named', () => {
    const lapsing = practice({
      papers: [clocked('binder', [{ sort: 'stated' }]), kind('permit')],
      errands: [
        errand('permit-apply', { yields: ['permit'], takes: weeks(4) }),
        errand('close', { needs: [need('permit'), need('binder')] }),
      ],
    });
    const view = lot({
      papers: [paper('binder', [edition('b', { issued: d('2026-03-20'), goodThrough: d('2026-04-19') })])],
    });
    expect(
      readWay({ practice: lapsing, lot: view, day }).stops.find((stop) => stop.errand === 'close')?.lapsesFirst,
    ).toEqual(['binder']);
  });

  test('an office this place does not have takes its errands off the way', () => {
    const none = practice({
      offices: [office('zoning', { exists: false })],
      errands: [errand('ask', { office: 'zoning' })],
    });
    expect(readWay({ practice: none, lot: lot(), day }).stops).toMatchObject([
      { errand: 'ask', state: "doesn't apply" },
    ]);
  });

  test('days to spare are those a day-by-day search finds', () => {
    const takes = fc.oneof(
      fc.integer({ min: 0, max: 30 }).map((days) => ({ days })),
      fc.integer({ min: 0, max: 15 }).map((workingDays) => ({ workingDays })),
    );
    fc.assert(
      fc.property(takes, fc.integer({ min: -20, max: 120 }), (to, after) => {
        const only = errand('only', { takes: { from: {}, to } });
        const one = practice({ errands: [only], holidays: [d('2026-05-25')] });
        const target = addDays(day, after);
        const world = { practice: one, lot: lot({ target }), day };
        const expected = (Date.parse(lastStart(world, only, target)) - Date.parse(day)) / 86_400_000;
        expect(readWay(world).stops[0]?.spare).toBe(expected);
      }),
      { numRuns: 300 },
    );
  });
});
