import { expect, test } from 'vitest';
import { readErrand } from '../../core/readiness/index.ts';
import { d, edition, errand, kind, lot, need, paper, practice } from './making.ts';

// Fixed bug: an optional need of "policy or binder" told "not in hand" while a binder about to lapse was in hand.
test('where either of two papers will do, the one in hand is told of, even when it is about to lapse', () => {
  const rules = practice({
    papers: [kind('policy'), kind('binder')],
    errands: [errand('apply', { needs: [need('cover', { kinds: ['policy', 'binder'], optional: true })] })],
  });
  const binder = edition('one', { issued: d('2026-03-20'), goodThrough: d('2026-04-19') });
  const view = lot({ papers: [paper('binder', [binder])] });
  const reading = readErrand('apply', { practice: rules, lot: view, day: d('2026-04-14') });
  expect(reading.needs).toMatchObject([{ need: 'cover', kind: 'binder', state: 'lapsing' }]);
  expect(reading.findings.map(({ sort }) => sort)).not.toContain('missing');
});
