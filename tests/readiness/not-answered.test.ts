import { describe, expect, test } from 'vitest';
import { feeDue, readErrand, readIdleClocks, readWay } from '../../core/readiness/index.ts';
import type { Visit, VisitSaid } from '../../core/vocabulary/lot.ts';
import { clocked, d, edition, errand, lot, office, paper, practice, visit } from './making.ts';

const day = d('2026-09-16');

const rules = practice({
  offices: [office('inspectors', { title: 'Building Inspections' })],
  papers: [clocked('permit', [{ sort: 'idle', span: { months: 6 }, since: 'inspection' }])],
  errands: [
    errand('framing', {
      office: 'inspectors',
      inspection: true,
      againFee: 4500,
      restarts: ['permit'],
      title: 'Framing inspection',
    }),
    errand('apply', { title: 'Apply' }),
  ],
});

const said: readonly VisitSaid[] = [
  { number: '1', text: 'Nail plates.', answered: d('2026-09-12') },
  { number: '3', text: 'Hold-down at the north-east corner is not bolted.', due: d('2026-10-10') },
];

function asked(visits: readonly Visit[]) {
  const permit = paper('permit', [edition('p', { issued: d('2026-06-01') })]);
  return { practice: rules, lot: lot({ visits, papers: [permit] }), day };
}

const failed = visit('framing', d('2026-09-10'), { state: 'sent back', outcome: 'fail', said });

describe('what an office asked for by number', () => {
  test('would send them away again until it is answered: refused, on their own word', () => {
    const { findings } = readErrand('framing', asked([failed]));
    const open = findings.filter(({ sort }) => sort === 'not answered');
    expect(open).toMatchObject([
      {
        weight: 'refused',
        say: 'Correction 3 of 10 Sep 2026 is not answered: "Hold-down at the north-east corner is not bolted."',
        basis: { on: 'the office told us', who: 'Building Inspections', day: '2026-09-10' },
        remedy: { say: 'Have it put right, then answer it, by 10 Oct 2026.' },
        final: false,
      },
    ]);
    expect(findings[0]?.sort).toBe('not answered');
  });

  test('does not keep the errand off the day’s slip: answering is what there is to do', () => {
    expect(readWay(asked([failed])).today).toContain('framing');
  });

  test('is a comment where it is no inspection', () => {
    const { findings } = readErrand('apply', asked([visit('apply', d('2026-09-10'), { state: 'sent back', said })]));
    expect(findings[0]?.say).toMatch(/^Comment 3 of 10 Sep 2026 is not answered/);
  });

  test('is nothing before the day it was said, nor after a later visit passed it', () => {
    const early = readErrand('framing', { ...asked([failed]), day: d('2026-09-09') });
    expect(early.findings.filter(({ sort }) => sort === 'not answered')).toEqual([]);
    const later = asked([failed, visit('framing', d('2026-09-15'), { outcome: 'pass' })]);
    expect(readErrand('framing', later)).toMatchObject({ state: 'settled', findings: [] });
  });

  test('still waits after a day nobody let them in', () => {
    const shut = asked([failed, visit('framing', d('2026-09-15'), { outcome: 'no access' })]);
    expect(readErrand('framing', shut).findings.filter(({ sort }) => sort === 'not answered')).toHaveLength(1);
  });
});

describe('the price of coming again', () => {
  test('is the fee once they came in vain, on the way and for the clock it starts anew as well', () => {
    const first = asked([]);
    expect(feeDue('framing', first)).toEqual({ fee: undefined, feeNote: undefined, again: false });
    expect(readWay(first)).toMatchObject({ feesKnown: 0, feesUnknown: 2 });
    const back = asked([failed]);
    expect(feeDue('framing', back)).toEqual({ fee: 4500, feeNote: 'for coming again', again: true });
    expect(readWay(back)).toMatchObject({ feesKnown: 4500, feesUnknown: 1 });
    expect(readIdleClocks(back)[0]?.restart?.errand).toBe('framing');
  });

  test('is over with once it passed', () => {
    const passed = asked([failed, visit('framing', d('2026-09-15'), { outcome: 'pass' })]);
    expect(feeDue('framing', passed)).toMatchObject({ fee: undefined, again: false });
  });
});
