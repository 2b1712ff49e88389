import { expect, test } from 'vitest';
import { feesOf } from '../../core/desk/features/costs.ts';
import type { Visit } from '../../core/vocabulary/lot.ts';
import { d, errand, lot, practice, visit } from '../readiness/making.ts';

const rules = practice({
  errands: [
    errand('apply', { fee: 24_000 }),
    errand('footing', { fee: 15_000, againFee: 7500, inspection: true }),
    errand('record', { fee: 3000 }),
  ],
});

function fees(...visits: readonly Visit[]) {
  const { known, settled, rows } = feesOf({ practice: rules, lot: lot({ visits }), day: d('2026-04-14') });
  return { known, settled, done: rows.filter((row) => row.settled).map((row) => row.errand) };
}

const applied = visit('apply', d('2026-03-02'));
const failed = visit('footing', d('2026-04-01'), { outcome: 'fail' });

test('what was paid once stays paid where the office asks a lesser price for coming again', () => {
  expect(fees(applied)).toEqual({ known: 42_000, settled: 24_000, done: ['apply'] });
  const coming = { known: 24_000 + 15_000 + 7500 + 3000, settled: 24_000 + 15_000, done: ['apply', 'footing'] };
  expect(fees(applied, failed)).toEqual(coming);
  expect(fees(applied, { ...failed, state: 'sent back' })).toEqual(coming);
});

test('a fee handed in with what lies at the office is no fee still to come', () => {
  expect(fees({ ...applied, state: 'left with them' })).toEqual({ known: 42_000, settled: 24_000, done: ['apply'] });
});
