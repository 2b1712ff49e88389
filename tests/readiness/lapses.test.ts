import { describe, expect, test } from 'vitest';
import { readDuties, readLapses } from '../../core/readiness/index.ts';
import type { Duty } from '../../core/vocabulary/practice.ts';
import { clocked, d, edition, errand, kind, lot, need, paper, practice, told, visit } from './making.ts';

const day = d('2026-04-14');

describe('what lapses soon', () => {
  const alive: Duty = { id: 'alive', kind: 'binder', to: 'built', say: 'It has to stay alive.', basis: told };
  const rules = (duties: readonly Duty[] = []) =>
    practice({
      papers: [clocked('binder', [{ sort: 'stated' }]), clocked('card', [{ sort: 'stated' }]), kind('house')],
      errands: [
        errand('insure', { yields: ['binder'], takes: { from: { days: 3 }, to: { days: 3 } } }),
        errand('apply', { yields: ['card'], needs: [need('binder')] }),
        errand('finish', {
          yields: ['house'],
          needs: [need('card')],
          causes: ['built'],
          takes: { from: {}, to: { weeks: 20 } },
        }),
      ],
      duties,
      events: [{ id: 'built', title: 'Built' }],
    });
  const view = (goodThrough: string) =>
    lot({ papers: [paper('binder', [edition('b', { goodThrough: d(goodThrough) })])] });
  const lapses = (goodThrough: string) => readLapses({ practice: rules(), lot: view(goodThrough), day });

  test('is told with its last good day where an errand still to come uses it, and what brings a new one', () => {
    expect(lapses('2026-05-14')).toMatchObject([
      {
        by: '2026-05-14',
        finding: {
          sort: 'lapsing',
          kind: 'binder',
          edition: 'b',
          weight: 'good to know',
          remedy: { errand: 'insure' },
        },
      },
    ]);
    // The thirtieth day is the last that is told.
    expect(lapses('2026-05-15')).toEqual([]);
  });

  // Fixed bug: what the owner gave a title of its own lapsed unseen.
  test('a paper no rule knows is told too, each of them, and not once it has a newer edition or has lapsed', () => {
    const own = (id: string, ...ends: readonly string[]) => ({
      ...paper(
        'other',
        ends.map((end, n) => edition(`${id}-${n}`, { goodThrough: d(end) })),
      ),
      id,
      title: id,
    });
    const told = (...papers: readonly ReturnType<typeof own>[]) =>
      readLapses({ practice: rules(), lot: lot({ papers }), day }).map(({ finding }) => finding.say);
    expect(told(own('Power letter', '2026-05-01'), own('Toilet hire', '2026-04-20'))).toEqual([
      '"Toilet hire" is good through 20 Apr 2026 only.',
      '"Power letter" is good through 1 May 2026 only.',
    ]);
    expect(told(own('Power letter', '2026-05-01', '2027-05-01'), own('Old', '2026-04-13'))).toEqual([]);
    // Common practice names the kind itself: "other" is of no rule all the same.
    const named = { ...rules(), papers: { ...rules().papers, other: kind('other') } };
    const view = lot({ papers: [own('Power letter', '2026-05-01')] });
    expect(readLapses({ practice: named, lot: view, day })).toHaveLength(1);
  });

  test('is told as far ahead as one asks, with the last day to ask for more time', () => {
    const extended = practice({
      papers: [
        clocked('binder', [{ sort: 'stated' }], {
          extension: { by: 'more', adds: { days: 90 }, times: 1, askedBeforeLapse: true },
        }),
        kind('more'),
        kind('card'),
      ],
      errands: [errand('apply', { yields: ['card'], needs: [need('binder')] })],
    });
    const asked = { practice: extended, lot: view('2026-06-12'), day };
    expect(readLapses(asked)).toEqual([]);
    // 14 April and 59 days; the office takes requests until the last good day, a Friday.
    expect(readLapses(asked, 59)).toMatchObject([{ by: '2026-06-12', askBy: '2026-06-12' }]);
  });

  test('is no trouble where it lasts days and is used in months: a new one would lapse again before then', () => {
    const slow = practice({
      papers: [clocked('ticket', [{ sort: 'lasts', span: { days: 15 } }]), kind('plans'), kind('well')],
      errands: [
        errand('call', { yields: ['ticket'] }),
        errand('draw', { yields: ['plans'], takes: { from: { weeks: 8 }, to: { weeks: 8 } } }),
        errand('drill', { yields: ['well'], needs: [need('ticket'), need('plans')] }),
      ],
    });
    const held = lot({ papers: [paper('ticket', [edition('t', { issued: d('2026-04-09') })])] });
    const [lapse] = readLapses({ practice: slow, lot: held, day });
    expect(lapse).toMatchObject({ by: '2026-04-24', finding: { weight: 'good to know' } });
    expect(lapse?.finding.remedy.say).toBe('Get it anew shortly before; got now, it lapses again.');
  });

  test('is told where an errand it was shown at may be done only after its last day', () => {
    const pits = practice({
      papers: [clocked('ticket', [{ sort: 'lasts', span: { days: 15 } }]), kind('soil')],
      errands: [
        errand('call', { yields: ['ticket'] }),
        errand('dig', {
          yields: ['soil'],
          needs: [need('ticket', { use: 'show' })],
          takes: { from: { weeks: 2 }, to: { weeks: 6 } },
        }),
      ],
    });
    const asked = lot({
      papers: [paper('ticket', [edition('t', { issued: d('2026-04-09') })])],
      visits: [visit('dig', d('2026-04-07'), { state: 'left with them' })],
    });
    const [lapse] = readLapses({ practice: pits, lot: asked, day });
    // 7 April and six weeks is 19 May; the ticket of 9 April is good through the 24th.
    expect(lapse).toMatchObject({ by: '2026-04-24', finding: { weight: 'good to know', kind: 'ticket' } });
    expect(lapse?.finding.why).toContain('may take until 19 May 2026');
  });

  test('is not told where nothing needs it any more', () => {
    const used = lot({ ...view('2026-05-01'), visits: [visit('apply', d('2026-04-01'))] });
    expect(readLapses({ practice: rules(), lot: used, day })).toEqual([]);
  });

  test('weighs more where it will have lapsed before the errand can be gone on', () => {
    const slow = practice({
      papers: [clocked('binder', [{ sort: 'stated' }]), kind('plans'), kind('card')],
      errands: [
        errand('insure', { yields: ['binder'] }),
        errand('draw', { yields: ['plans'], takes: { from: { weeks: 8 }, to: { weeks: 8 } } }),
        errand('apply', { yields: ['card'], needs: [need('binder'), need('plans')] }),
      ],
    });
    const [lapse] = readLapses({ practice: slow, lot: view('2026-05-01'), day });
    expect(lapse?.finding).toMatchObject({ weight: 'questioned', kind: 'binder' });
  });

  test('is left to the duty where the duty tells it, and told here once the duty is over', () => {
    const watched = { practice: rules([alive]), lot: view('2026-04-20'), day };
    expect(readDuties(watched)[0]?.findings[0]).toMatchObject({ sort: 'duty at risk', kind: 'binder' });
    expect(readLapses(watched)).toEqual([]);
    const over = lot({ ...view('2026-04-20'), events: [{ event: 'built', day: d('2026-04-01') }] });
    expect(readLapses({ practice: rules([alive]), lot: over, day })).toHaveLength(1);
  });
});
