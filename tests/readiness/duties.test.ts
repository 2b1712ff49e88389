import { describe, expect, test } from 'vitest';
import { readDuties, readErrand, readWay } from '../../core/readiness/index.ts';
import type { Day } from '../../core/vocabulary/days.ts';
import type { Errand } from '../../core/vocabulary/practice.ts';
import { clocked, d, edition, errand, kind, lot, need, paper, practice, told } from './making.ts';

const day = d('2026-04-14');
const weeks = (count: number): Errand['takes'] => ({ from: {}, to: { weeks: count } });
const working = (count: number): Errand['takes'] => ({ from: { workingDays: 1 }, to: { workingDays: count } });

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
