import { expect, test } from 'vitest';
import { aheadOf } from '../../core/desk/features/ahead.ts';
import type { Duty } from '../../core/vocabulary/practice.ts';
import { clocked, d, edition, errand, kind, lot, need, paper, practice, told } from '../readiness/making.ts';

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
