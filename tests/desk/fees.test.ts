import { expect, test } from 'vitest';
import { feesOf } from '../../core/desk/features/fee-rows.ts';
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

// Fixed bug: the fee of coming again dropped out of the costs on the day the inspection passed.
test('what was owed for coming again stays a cost once it is passed', () => {
  const passed = visit('footing', d('2026-04-08'), { outcome: 'pass' });
  const whole = 24_000 + 15_000 + 7500 + 3000;
  expect(fees(applied, failed)).toMatchObject({ known: whole, settled: 39_000 });
  expect(fees(applied, failed, passed)).toEqual({
    known: whole,
    settled: 24_000 + 15_000 + 7500,
    done: ['apply', 'footing', 'footing'],
  });
});

test('every coming again is counted, once for each coming in vain', () => {
  const again = visit('footing', d('2026-04-06'), { outcome: 'fail' });
  const passed = visit('footing', d('2026-04-08'), { outcome: 'pass' });
  expect(fees(failed, again)).toMatchObject({ settled: 15_000 + 7500, known: 24_000 + 15_000 + 7500 + 7500 + 3000 });
  // Paid once and due once: two rows of one title, told apart by that alone.
  const twice = feesOf({ practice: rules, lot: lot({ visits: [failed, again] }), day: d('2026-04-14') }).rows;
  expect(new Set(twice.map(({ title, settled }) => `${title} ${settled}`)).size).toBe(twice.length);
  const { rows } = feesOf({
    practice: rules,
    lot: lot({ visits: [failed, again, passed] }),
    day: d('2026-04-14'),
  });
  expect(rows.filter(({ errand: id }) => id === 'footing')).toMatchObject([
    { title: 'Go for footing', fee: 15_000, settled: true },
    { title: 'Go for footing, coming again 2 times', fee: 15_000, settled: true },
  ]);
  expect(fees(failed, again, passed)).toMatchObject({ settled: 30_000, known: 24_000 + 30_000 + 3000 });
});

test('a coming called off costs nothing, and what is left with them after a failure is paid for', () => {
  const off = visit('footing', d('2026-04-06'), { outcome: 'cancelled' });
  expect(fees(failed, off)).toMatchObject({ settled: 15_000, known: 24_000 + 15_000 + 7500 + 3000 });
  const left = visit('footing', d('2026-04-06'), { state: 'left with them' });
  const known = 24_000 + 15_000 + 7500 + 3000;
  expect(fees(failed, left)).toMatchObject({ settled: 15_000 + 7500, known });
  expect(fees(failed, left, visit('footing', d('2026-04-08'), { outcome: 'pass' }))).toMatchObject({ known });
});
