import type {
  ChangeOrder,
  CostBook,
  CostLine,
  Draw,
  DrawLine,
  Invoice,
  Payment,
  SupplierNotice,
  Waiver,
  WaiverKind,
} from '../vocabulary/costs.ts';
import type { Ledger } from './ledger.ts';

type Row = Readonly<Record<string, string | number | null>>;

/** A row as it came, nulls left out: what was never said is not there. */
function present<T extends object>(row: Row): T;
function present(row: Row): object {
  return Object.fromEntries(Object.entries(row).filter(([, value]) => value !== null));
}

type Flags<T, K extends keyof T> = Omit<T, K> & { readonly [F in K]: number };

function all<T extends object>(ledger: Ledger, sql: string): readonly T[] {
  return ledger.db
    .prepare<[], Row>(sql)
    .all()
    .map((row) => present<T>(row));
}

function kindOf(row: { readonly conditional: number; readonly final: number }): WaiverKind {
  if (row.conditional === 1) return row.final === 1 ? 'conditional final' : 'conditional progress';
  return row.final === 1 ? 'unconditional final' : 'unconditional progress';
}

type WaiverRow = Omit<Waiver, 'kind'> & { readonly conditional: number; readonly final: number };

function draws(ledger: Ledger): readonly Draw[] {
  const lines = Map.groupBy(
    all<DrawLine & { readonly draw: string }>(ledger, 'SELECT draw, line, work, stored FROM draw_line ORDER BY seq'),
    ({ draw }) => draw,
  );
  const rows = all<Omit<Flags<Draw, 'final'>, 'lines'>>(
    ledger,
    `SELECT id, number, subject, day, work_rate AS workRate, stored_rate AS storedRate, final, asked, paid,
       paid_amount AS paidAmount, anyway FROM draw ORDER BY number`,
  );
  return rows.map((row) => ({
    ...row,
    final: row.final === 1,
    lines: (lines.get(row.id) ?? []).map(({ line, work, stored }) => ({ line, work, stored })),
  }));
}

/** All money rows of the lot in a handful of statements. */
export function readCosts(ledger: Ledger): CostBook {
  return {
    lines: all<CostLine>(
      ledger,
      'SELECT id, sort, title, trade, subject, estimate, agreed, note FROM cost_line ORDER BY seq',
    ),
    changeOrders: all<Flags<ChangeOrder, 'fromContingency'>>(
      ledger,
      `SELECT id, line, number, title, day, amount, from_contingency AS fromContingency, edition
       FROM change_order ORDER BY day, seq`,
    ).map((row) => ({ ...row, fromContingency: row.fromContingency === 1 })),
    invoices: all<Invoice>(
      ledger,
      'SELECT id, line, payee, subject, number, day, amount, held, edition FROM invoice ORDER BY day, seq',
    ),
    payments: all<Payment>(
      ledger,
      'SELECT id, invoice, day, amount, how, cleared, edition FROM payment ORDER BY day, seq',
    ),
    notices: all<SupplierNotice>(
      ledger,
      'SELECT id, supplier, subject, day, since, delivers, edition FROM supplier_notice ORDER BY day, seq',
    ),
    waivers: all<WaiverRow>(
      ledger,
      `SELECT id, invoice, notice, conditional, final, day, through, amount, exceptions, edition
       FROM waiver ORDER BY day, seq`,
    ).map(({ conditional, final, ...row }) => ({ ...row, kind: kindOf({ conditional, final }) })),
    draws: draws(ledger),
  };
}
