import type { ChangeOrder, CostBook, CostLine, Draw, Invoice, SupplierNotice } from '../../vocabulary/costs.ts';
import { LotfileError } from '../../vocabulary/errors.ts';

/** Finding rows of the costs by their id, or by what a person calls them. */

function same(a: string | undefined, b: string): boolean {
  return a !== undefined && a.toLocaleLowerCase() === b.toLocaleLowerCase();
}

function theOne<T>(found: readonly T[], what: string, said: string): T {
  const [first] = found;
  if (first !== undefined && found.length === 1) return first;
  throw new LotfileError(
    first === undefined ? 'not found' : 'wrong use',
    first === undefined ? `No ${what} is called "${said}".` : `"${said}" could mean ${found.length} of them.`,
    { about: said, next: first === undefined ? 'See what there is: costs.' : 'Name one by its id: costs --json.' },
  );
}

interface WithId {
  readonly id: string;
}

function named<T extends WithId>(
  rows: readonly T[],
  said: string,
  by: { readonly what: string; readonly called: (row: T) => readonly (string | undefined)[] },
): T {
  const exact = rows.filter(({ id }) => id === said);
  const found = exact.length > 0 ? exact : rows.filter((row) => by.called(row).some((name) => same(name, said)));
  return theOne(found, by.what, said);
}

export function lineNamed(book: CostBook, said: string): CostLine {
  return named(book.lines, said, { what: 'cost line', called: ({ title, trade }) => [title, trade] });
}

export function orderNamed(book: CostBook, said: string): ChangeOrder {
  return named(book.changeOrders, said, { what: 'change order', called: ({ number, title }) => [number, title] });
}

export function invoiceNamed(book: CostBook, said: string): Invoice {
  return named(book.invoices, said, { what: 'invoice', called: ({ number, payee }) => [number, payee] });
}

export function noticeNamed(book: CostBook, said: string): SupplierNotice {
  return named(book.notices, said, { what: 'supplier’s notice', called: ({ supplier }) => [supplier] });
}

export function drawNamed(book: CostBook, said: string): Draw {
  const called = ({ number }: Draw): readonly string[] => [String(number), `Draw ${number}`];
  return named(book.draws, said, { what: 'draw', called });
}

/** A row of any list by its id alone. */
export function rowById<T extends WithId>(rows: readonly T[], id: string, what: string): T {
  return named(rows, id, { what, called: () => [] });
}

/** What a new row can't do without, said as a person would. */
export function needed<T>(value: T | undefined, what: string): T {
  if (value !== undefined) return value;
  throw new LotfileError('wrong use', `A new one needs ${what}.`, { next: `Say ${what} as well.` });
}
