import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readDuties, readErrand, readHolds, readWay } from '../../core/readiness/index.ts';
import { addDays, type Day } from '../../core/vocabulary/days.ts';
import type { Errand, Hold } from '../../core/vocabulary/practice.ts';
import {
  clocked,
  common,
  d,
  edition,
  errand,
  kind,
  lot,
  need,
  office,
  paper,
  practice,
  told,
  visit,
} from './making.ts';
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

describe('errand states', () => {
  const rules = practice({
    papers: [clocked('permit', [{ sort: 'lasts', span: { days: 30 } }])],
    errands: [
      errand('apply', { yields: ['permit'] }),
      errand('frame', { inspection: true }),
      errand('use', { needs: [need('permit')] }),
    ],
  });
  const state = (id: string, extra: Parameters<typeof lot>[0]) =>
    readErrand(id, { practice: rules, lot: lot(extra), day }).state;

  test('an inspection is settled by a pass, never by a fail, a part, or nobody home', () => {
    for (const outcome of ['pass', 'pass with corrections', 'letter in lieu'] as const) {
      expect(state('frame', { visits: [visit('frame', d('2026-04-01'), { outcome })] })).toBe('settled');
    }
    for (const outcome of ['fail', 'partial', 'no access', 'cancelled'] as const) {
      expect(state('frame', { visits: [visit('frame', d('2026-04-01'), { outcome })] })).toBe('can go');
    }
    expect(state('frame', { visits: [visit('frame', d('2026-04-01'))] })).toBe('can go');
    const passed = visit('frame', d('2026-04-01'), { outcome: 'pass' });
    expect(state('frame', { visits: [passed, visit('frame', d('2026-04-08'), { outcome: 'fail' })] })).toBe('can go');
    expect(state('frame', { visits: [passed, visit('frame', d('2026-04-08'), { outcome: 'no access' })] })).toBe(
      'settled',
    );
  });

  test('a planned visit settles nothing, and one after the day asked about has not been made', () => {
    expect(state('apply', { visits: [visit('apply', d('2026-04-01'), { state: 'planned' })] })).toBe('can go');
    expect(state('apply', { visits: [visit('apply', d('2026-04-15'))] })).toBe('can go');
    expect(state('apply', { visits: [visit('apply', d('2026-04-10'), { state: 'sent back' })] })).toBe('sent back');
  });

  test('a permit that lapsed before it was used has to be fetched again; once used, never', () => {
    const permit = paper('permit', [edition('p', { issued: d('2026-01-05') })]);
    expect(state('apply', { papers: [permit], visits: [visit('apply', d('2026-01-05'))] })).toBe('can go');
    expect(
      state('apply', { papers: [permit], visits: [visit('apply', d('2026-01-05')), visit('use', d('2026-01-20'))] }),
    ).toBe('settled');
  });
});

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

describe('duties', () => {
  const permit = clocked('septic', [{ sort: 'lasts', span: { months: 18 } }], {
    extension: { by: 'extension', adds: { days: 90 }, times: 1, askedBeforeLapse: true },
  });
  const rules = practice({
    papers: [permit, kind('extension'), kind('final')],
    errands: [
      errand('extend', { yields: ['extension'], needs: [need('septic', { use: 'show' })] }),
      errand('finish', { yields: ['final'], needs: [need('septic')], takes: weeks(20), causes: ['built'] }),
    ],
    duties: [
      {
        id: 'alive',
        kind: 'septic',
        to: 'built',
        say: 'The septic permit has to be alive until the system is in.',
        basis: told,
      },
    ],
    events: [{ id: 'built', title: 'System built' }],
  });
  const view = (issued: Day, events: { readonly event: string; readonly day: Day }[] = []) =>
    lot({ papers: [paper('septic', [edition('s', { issued })])], events });

  test('a permit that lapses before it has done its work is at risk, with the last open day to ask', () => {
    const [duty] = readDuties({ practice: rules, lot: view(d('2024-11-02')), day });
    // 18 months end on Saturday 2 May 2026; the last open day is Friday 1 May.
    expect(duty).toMatchObject({
      running: 'running',
      until: '2026-09-01',
      validity: { through: '2026-05-02', askBy: '2026-05-01' },
    });
    expect(duty?.findings.map((one) => [one.sort, one.weight])).toEqual([
      ['duty at risk', 'refused'],
      ['ask to extend', 'questioned'],
    ]);
    expect(duty?.findings[0]?.remedy.errand).toBe('extend');
    const told_ = readErrand('finish', { practice: rules, lot: view(d('2024-11-02')), day }).findings;
    expect(told_.filter((one) => one.sort === 'duty at risk')).toMatchObject([
      { weight: 'questioned', errand: 'finish' },
    ]);
  });

  test('a last good day on the very day the work is done is enough, the day before is not', () => {
    const printed = { ...permit, clocks: [{ label: 'printed', sort: 'stated' }] } as const;
    const stated = practice({
      papers: [printed, kind('extension'), kind('final')],
      errands: Object.values(rules.errands),
      duties: Object.values(rules.duties),
    });
    const risks = (through: Day) => {
      const own = edition('s', { issued: d('2026-01-05'), goodThrough: through });
      return readDuties({ practice: stated, lot: lot({ papers: [paper('septic', [own])] }), day })[0]?.findings.length;
    };
    expect(risks(d('2026-09-01'))).toBe(0);
    expect(risks(d('2026-08-31'))).toBe(1);
  });

  test('one that lasts is quiet, and one whose work is done is over', () => {
    expect(readDuties({ practice: rules, lot: view(d('2026-01-05')), day })[0]?.findings).toEqual([]);
    const over = readDuties({
      practice: rules,
      lot: view(d('2024-01-05'), [{ event: 'built', day: d('2025-03-03') }]),
      day,
    });
    expect(over[0]).toMatchObject({ running: 'over', findings: [] });
  });

  test('one that has lapsed is refused where the office said so', () => {
    expect(readDuties({ practice: rules, lot: view(d('2024-01-05')), day })[0]?.findings[0]).toMatchObject({
      sort: 'duty at risk',
      weight: 'refused',
    });
  });

  test('for an idle permit the cheapest inspection that comes in time restarts it', () => {
    const idle = practice({
      papers: [clocked('card', [{ sort: 'idle', span: { days: 180 }, since: 'inspection' }])],
      errands: [
        errand('dear', { inspection: true, restarts: ['card'], fee: 9_000 }),
        errand('cheap', { inspection: true, restarts: ['card'], fee: 2_500 }),
        errand('late', {
          inspection: true,
          restarts: ['card'],
          fee: 100,
          before: [{ id: 'b', after: { errand: 'slow' }, basis: told }],
        }),
        errand('slow', { takes: weeks(40) }),
      ],
    });
    const card = lot({ papers: [paper('card', [edition('c', { issued: d('2026-01-15') })])] });
    expect(readWay({ practice: idle, lot: card, day }).restarts).toEqual([
      { kind: 'card', errand: 'cheap', by: '2026-07-14' },
    ]);
  });

  test('a paper that would lapse before anything needs it is not sent for today', () => {
    const made = (earlier: Errand['takes']): ReturnType<typeof readWay> =>
      readWay({
        practice: practice({
          papers: [clocked('ticket', [{ label: 'fifteen days', sort: 'lasts', span: { days: 15 } }]), kind('plans')],
          errands: [
            errand('locate-call', { yields: ['ticket'], takes: working(1) }),
            errand('plans-order', { yields: ['plans'], takes: earlier }),
            errand('dig', { needs: [need('ticket'), need('plans')] }),
          ],
        }),
        lot: lot(),
        day,
      });
    const late = made(weeks(8));
    expect(late.today).toEqual(['plans-order']);
    expect(late.stops.find((stop) => stop.errand === 'locate-call')).toMatchObject({
      state: 'can go',
      tooSoon: { lapses: '2026-04-30', neededFrom: '2026-06-09' },
    });
    expect(made(weeks(2)).today).toEqual(['locate-call', 'plans-order']);
  });

  test('more time on a paper is asked for when its last days come near, not on every day it is held', () => {
    const rules = practice({
      papers: [
        clocked('permit', [{ sort: 'stated' }], {
          extension: { by: 'extension', adds: { days: 90 }, times: 1, askedBeforeLapse: true },
        }),
        kind('extension'),
      ],
      errands: [errand('extend', { yields: ['extension'] })],
    });
    const until = (goodThrough: Day): readonly string[] => {
      const permit = edition('one', { issued: d('2026-01-02'), goodThrough });
      return readWay({ practice: rules, lot: lot({ papers: [paper('permit', [permit])] }), day }).today;
    };
    expect(until(d('2026-12-31'))).toEqual([]);
    expect(until(d('2026-05-29'))).toEqual(['extend']);
  });
});
