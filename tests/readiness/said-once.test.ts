import { expect, test } from 'vitest';
import { readErrand } from '../../core/readiness/index.ts';
import { clocked, d, edition, errand, kind, lot, need, paper, practice } from './making.ts';

test('a paper that is missing does not hide that another, from the same errand, lapses', () => {
  const rules = practice({
    papers: [clocked('survey', [{ sort: 'lasts', span: { months: 6 } }]), kind('sketch')],
    errands: [
      errand('measure', { yields: ['survey', 'sketch'] }),
      errand('apply', { needs: [need('survey'), need('sketch')] }),
    ],
  });
  const view = lot({ papers: [paper('survey', [edition('s', { issued: d('2026-01-10') })])] });
  const { findings } = readErrand('apply', { practice: rules, lot: view, day: d('2026-07-01') });
  expect(findings.map(({ sort, kind: about }) => [sort, about])).toEqual([
    ['missing', 'sketch'],
    ['lapsing', 'survey'],
  ]);
});

test('an errand that comes first is told once where the paper it brings is missing', () => {
  const rules = practice({
    papers: [kind('sketch')],
    errands: [
      errand('measure', { yields: ['sketch'] }),
      errand('apply', {
        needs: [need('sketch')],
        before: [{ id: 'first', after: { errand: 'measure' }, basis: need('sketch').basis }],
      }),
    ],
  });
  const { findings, state } = readErrand('apply', { practice: rules, lot: lot(), day: d('2026-07-01') });
  expect(state).toBe("can't go yet");
  expect(findings.map(({ sort }) => sort)).toEqual(['missing']);
});

test('among findings of one weight, what is missing stands before what only has to be ticked or entered', () => {
  const rules = practice({
    papers: [kind('plans'), kind('report')],
    errands: [errand('apply', { needs: [need('plans', { marks: ['dated'] }), need('report')] })],
  });
  const view = lot({ papers: [paper('plans', [edition('p', { issued: d('2026-01-10') })])] });
  const { findings } = readErrand('apply', { practice: rules, lot: view, day: d('2026-07-01') });
  expect(findings.map(({ weight, sort }) => [weight, sort])).toEqual([
    ['refused', 'missing'],
    ['refused', 'mark missing'],
  ]);
});
