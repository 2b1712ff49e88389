import type { CostBook, CostLine, Invoice, Rate } from '../vocabulary/costs.ts';
import type { Cents } from '../vocabulary/money.ts';

export interface LedgerRow {
  readonly line: CostLine;
  /** Change orders on it. */
  readonly changes: Cents;
  /** Agreed with its change orders; undefined while no price is agreed. */
  readonly agreed: Cents | undefined;
  /** What it will come to: agreed where there is a price, else estimated, with its change orders. */
  readonly expected: Cents;
  readonly billed: Cents;
  readonly paid: Cents;
  /** Of what is billed: held back until the end. */
  readonly held: Cents;
  readonly toPay: Cents;
  /** Paid beyond what it was to come to. */
  readonly over: Cents;
}

export interface Contingency {
  readonly planned: Cents;
  /** Of the estimate of work, in hundredths of a percent; undefined where no work is estimated. */
  readonly share: Rate | undefined;
  /** Change orders took it. */
  readonly moved: Cents;
  /** Prices agreed above (or, negative, below) their estimates took it. */
  readonly overruns: Cents;
  readonly left: Cents;
}

export interface LedgerSums {
  readonly estimate: Cents;
  readonly agreed: Cents;
  readonly expected: Cents;
  readonly paid: Cents;
  readonly toPay: Cents;
}

export interface CostLedger {
  /** Without the contingency, which belongs to no trade. */
  readonly rows: readonly LedgerRow[];
  readonly contingency: Contingency | undefined;
  /** Work, fees and land. */
  readonly totals: LedgerSums;
  /** The house without the land, its contingency included: what can burn. */
  readonly house: Cents;
}

function sum<T>(items: readonly T[], of: (item: T) => Cents): Cents {
  return items.reduce((total, item) => total + of(item), 0);
}

export function paidOn(book: CostBook, invoice: Invoice): Cents {
  return sum(
    book.payments.filter((payment) => payment.invoice === invoice.id),
    ({ amount }) => amount,
  );
}

function rowOf(book: CostBook, line: CostLine): LedgerRow {
  const invoices = book.invoices.filter((invoice) => invoice.line === line.id);
  const changes = sum(
    book.changeOrders.filter((order) => order.line === line.id),
    ({ amount }) => amount,
  );
  const expected = (line.agreed ?? line.estimate) + changes;
  const paid = sum(invoices, (invoice) => paidOn(book, invoice));
  return {
    line,
    changes,
    agreed: line.agreed === undefined ? undefined : line.agreed + changes,
    expected,
    billed: sum(invoices, ({ amount }) => amount),
    paid,
    held: sum(invoices, ({ held }) => held),
    toPay: Math.max(0, expected - paid),
    over: Math.max(0, paid - expected),
  };
}

function contingencyOf(book: CostBook, rows: readonly LedgerRow[]): Contingency | undefined {
  const line = book.lines.find(({ sort }) => sort === 'contingency');
  if (line === undefined) return undefined;
  const work = sum(rows, (row) => (row.line.sort === 'work' ? row.line.estimate : 0));
  const moved = sum(book.changeOrders, ({ amount, fromContingency }) => (fromContingency ? amount : 0));
  const overruns = sum(rows, ({ line: { agreed, estimate } }) => (agreed === undefined ? 0 : agreed - estimate));
  return {
    planned: line.estimate,
    share: work === 0 ? undefined : Math.round((line.estimate * 10_000) / work),
    moved,
    overruns,
    left: line.estimate - moved - overruns,
  };
}

/**
 * Estimate, agreed, paid and still to pay by line, and what is left of the contingency. Cents.
 * A price above its estimate eats into the contingency, one below gives to it; so does a change order that is taken
 * from it. What is expected and what is left of the contingency always come to all estimates, the contingency and the
 * change orders that are not taken from it. Common practice, no source.
 */
export function costLedger(book: CostBook): CostLedger {
  const rows = book.lines.filter(({ sort }) => sort !== 'contingency').map((line) => rowOf(book, line));
  const contingency = contingencyOf(book, rows);
  const house = sum(rows, (row) => (row.line.sort === 'work' ? row.line.estimate : 0)) + (contingency?.planned ?? 0);
  return {
    rows,
    contingency,
    totals: {
      estimate: sum(rows, ({ line }) => line.estimate),
      agreed: sum(rows, ({ agreed }) => agreed ?? 0),
      expected: sum(rows, ({ expected }) => expected),
      paid: sum(rows, ({ paid }) => paid),
      toPay: sum(rows, ({ toPay }) => toPay),
    },
    house,
  };
}
