import { expect, test } from 'vitest';
import { paymentRows } from '../../core/desk/features/payment-rows.ts';
import { finalsAfter } from '../../core/readiness/index.ts';
import type { CostBook, Invoice, Payment, Waiver } from '../../core/vocabulary/costs.ts';

const invoice: Invoice = {
  id: 'i1',
  line: 'framing',
  payee: 'Quillfeather Framing',
  day: '2026-06-01',
  amount: 800_000,
  held: 0,
};

function payment(id: string, extra: Partial<Payment> = {}): Payment {
  return { id, invoice: 'i1', day: '2026-06-10', amount: 400_000, how: 'cheque', cleared: '2026-06-12', ...extra };
}

function waiver(extra: Partial<Waiver> = {}): Waiver {
  return { id: 'w', invoice: 'i1', kind: 'unconditional progress', day: '2026-06-15', ...extra };
}

function book(extra: Partial<CostBook>): CostBook {
  const line = { id: 'framing', sort: 'work', title: 'Framing', estimate: 2_000_000 } as const;
  return {
    lines: [line],
    changeOrders: [],
    invoices: [invoice],
    payments: [],
    waivers: [],
    notices: [],
    draws: [],
    ...extra,
  };
}

const two = [payment('p1'), payment('p2', { day: '2026-06-20', amount: 300_000, cleared: '2026-06-22' })];

test('a waiver over one payment says nothing of the next', () => {
  const rows = paymentRows(invoice, book({ payments: two, waivers: [waiver({ amount: 400_000 })] }));
  expect(rows.map(({ waived }) => waived)).toEqual([true, false]);
});

test('one over both sums, or through the later day, covers both', () => {
  const over = (extra: Partial<Waiver>) => paymentRows(invoice, book({ payments: two, waivers: [waiver(extra)] }));
  expect(over({ amount: 700_000 }).map(({ waived }) => waived)).toEqual([true, true]);
  expect(over({ through: '2026-06-30' }).map(({ waived }) => waived)).toEqual([true, true]);
  expect(over({ through: '2026-06-15' }).map(({ waived }) => waived)).toEqual([true, false]);
});

test('whoever sold the land is asked for none', () => {
  const land = { id: 'framing', sort: 'land', title: 'The lot', estimate: 2_000_000 } as const;
  const [row] = paymentRows(invoice, book({ lines: [land], payments: [payment('p1')] }));
  expect([row?.calls, row?.waived]).toEqual([undefined, false]);
});

test('a final waiver covers the firm’s earlier invoices, unless it leaves something out', () => {
  const later: Invoice = { ...invoice, id: 'i2', day: '2026-08-01' };
  const signed = { invoice: 'i2', kind: 'unconditional final', day: '2026-08-20' } as const;
  const found = (extra: Partial<Waiver>) =>
    finalsAfter(
      book({ invoices: [invoice, later], waivers: [waiver({ ...signed, ...extra })] }),
      invoice,
      '2026-09-01',
    );
  expect(found({})).toHaveLength(1);
  expect(found({ exceptions: 'the invoice of 1 June, disputed' })).toEqual([]);
});
