import { expect, test } from 'vitest';
import { aheadOf, lapsedNow } from '../../core/desk/features/ahead.ts';
import { amissAndSoon } from '../../core/desk/features/soon-rows.ts';
import type { LotView } from '../../core/vocabulary/lot.ts';
import type { Duty } from '../../core/vocabulary/practice.ts';
import { clocked, d, edition, errand, kind, lot, need, paper, practice, told, visit } from '../readiness/making.ts';

test('a paper that lasts as long as it must stay alive, and lapses before an errand needs it, is told with its remedy', () => {
  const alive: Duty = { id: 'alive', kind: 'binder', to: 'begun', say: 'It has to stay alive.', basis: told };
  const rules = practice({
    papers: [clocked('binder', [{ sort: 'stated' }]), kind('plans'), kind('house')],
    errands: [
      errand('insure', { yields: ['binder'] }),
      errand('begin', { causes: ['begun'] }),
      errand('draw', { yields: ['plans'], takes: { from: { weeks: 8 }, to: { weeks: 8 } } }),
      errand('finish', { yields: ['house'], needs: [need('binder'), need('plans')] }),
    ],
    duties: [alive],
    events: [{ id: 'begun', title: 'Begun' }],
  });
  const view = lot({ papers: [paper('binder', [edition('b', { goodThrough: d('2026-05-01') })])] });
  const rows = aheadOf({ practice: rules, lot: view, day: d('2026-04-14') }, 30);
  expect(rows).toMatchObject([{ through: '2026-05-01', finding: { weight: 'questioned', kind: 'binder' } }]);
  expect(rows[0]?.finding.remedy).toMatchObject({ errand: 'insure' });
});

/** A binder needed for a closing that waits eight weeks for plans; good through 1 May. */
const closing = practice({
  papers: [clocked('binder', [{ sort: 'stated' }]), kind('plans'), kind('mortgage')],
  errands: [
    errand('insure', { yields: ['binder'] }),
    errand('draw', { yields: ['plans'], takes: { from: { weeks: 8 }, to: { weeks: 8 } } }),
    errand('close', { yields: ['mortgage'], needs: [need('binder'), need('plans')] }),
  ],
});
const binder = edition('b', { issued: d('2026-02-01'), goodThrough: d('2026-05-01') });
const after = d('2026-05-02');

function slip(view: Parameters<typeof lot>[0], day = after) {
  const asked = { practice: closing, lot: lot(view), day };
  const { amiss, soon } = amissAndSoon(asked);
  const of = (rows: readonly { readonly kind?: string | undefined }[]) => rows.filter(({ kind: k }) => k === 'binder');
  return { lapsed: lapsedNow(asked), amiss: of(amiss), soon: of(soon) };
}

test('a cover that has lapsed and that an errand far ahead still asks for does not go silent the day after', () => {
  const { lapsed, amiss, soon } = slip({ papers: [paper('binder', [binder])] });
  expect(lapsed).toMatchObject([{ on: '2026-05-01', finding: { sort: 'lapsed', kind: 'binder', weight: 'refused' } }]);
  expect(lapsed[0]?.finding.remedy.errand).toBe('insure');
  expect(amiss).toMatchObject([{ sort: 'lapsed', by: '2026-05-01' }]);
  expect(soon).toEqual([]);
});

test('it is told no more once it is renewed, once nothing needs it, and where it doesn’t apply', () => {
  const renewed = edition('c', { issued: d('2026-05-02'), goodThrough: d('2027-05-01') });
  const views: readonly Parameters<typeof lot>[0][] = [
    { papers: [paper('binder', [binder, renewed])] },
    { papers: [paper('binder', [binder])], visits: [visit('close', d('2026-04-20'))] },
    { papers: [{ ...paper('binder', [binder]), notApplicable: 'No lender.' }] },
  ];
  for (const view of views) expect(slip(view)).toEqual({ lapsed: [], amiss: [], soon: [] });
});

test('a ticket of days that is used in months is no fault once it has lapsed: it is got anew shortly before', () => {
  const ticket = edition('b', { issued: d('2026-04-20'), goodThrough: d('2026-05-01') });
  const { amiss, soon } = slip({ papers: [paper('binder', [ticket])] });
  expect(amiss).toEqual([]);
  expect(soon).toMatchObject([{ sort: 'lapsed', weight: 'good to know' }]);
});

test('a permit under which work goes on heads the list once it has lapsed, though no errand asks for it', () => {
  const alive: Duty = { id: 'alive', kind: 'card', from: 'begun', to: 'done', say: 'It must live.', basis: told };
  const rules = practice({
    papers: [clocked('card', [{ sort: 'stated' }])],
    errands: [errand('apply', { yields: ['card'] })],
    duties: [alive],
    events: [
      { id: 'begun', title: 'Begun' },
      { id: 'done', title: 'Done' },
    ],
  });
  const card = paper('card', [edition('c', { goodThrough: d('2026-05-01') })]);
  const at = (events: LotView['events']) => ({
    practice: rules,
    lot: lot({ papers: [card], events }),
    day: after,
  });
  const begun = { event: 'begun', day: d('2026-03-01') };
  expect(lapsedNow(at([begun]))).toMatchObject([{ on: '2026-05-01', finding: { sort: 'duty at risk', kind: 'card' } }]);
  expect(lapsedNow(at([begun, { event: 'done', day: d('2026-04-30') }]))).toEqual([]);
});
