import type { ChangeOrder, CostLine, Draw, Invoice, Payment, SupplierNotice, Waiver } from '../vocabulary/costs.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import { addSubject } from './answers.ts';
import { newId } from './ids.ts';
import type { CostTable, Kept } from './keeping-model.ts';
import type { Ledger } from './ledger.ts';

/** What a person calls a row of each table. */
const names = {
  cost_line: 'cost line',
  change_order: 'change order',
  invoice: 'invoice',
  payment: 'payment',
  supplier_notice: 'supplier’s notice',
  waiver: 'waiver',
  draw: 'draw',
} as const satisfies Record<CostTable, string>;

const prefixes = {
  cost_line: 'c',
  change_order: 'o',
  invoice: 'i',
  payment: 'm',
  supplier_notice: 'n',
  waiver: 'w',
  draw: 'd',
} as const satisfies Record<CostTable, string>;

/** What rests on a row, so that taking it away is refused with a sentence and not by the database. */
const resting: Partial<Readonly<Record<CostTable, readonly (readonly [table: string, by: string, what: string])[]>>> = {
  cost_line: [
    ['invoice', 'line', 'invoices'],
    ['change_order', 'line', 'change orders'],
    ['draw_line', 'line', 'draws'],
  ],
  invoice: [
    ['payment', 'invoice', 'payments'],
    ['waiver', 'invoice', 'waivers'],
  ],
  supplier_notice: [['waiver', 'notice', 'waivers']],
};

type Columns = Readonly<Record<string, string | number | undefined>>;

function notThere(table: CostTable, id: string): LotfileError {
  return new LotfileError('not found', `There is no such ${names[table]}.`, {
    about: id,
    next: 'It may have been taken back in another window; look at the costs again.',
  });
}

/** Writes a new row, or every column of the one with this id. */
function put(ledger: Ledger, table: CostTable, kept: { id: string | undefined; columns: Columns }): string {
  const { columns } = kept;
  const keys = Object.keys(columns);
  const values = Object.fromEntries(Object.entries(columns).map(([key, value]) => [key, value ?? null]));
  const id = kept.id ?? newId(prefixes[table]);
  if (kept.id === undefined) {
    const places = keys.map((key) => `:${key}`).join(', ');
    ledger.db.prepare(`INSERT INTO ${table} (id, ${keys.join(', ')}) VALUES (:id, ${places})`).run({ id, ...values });
    return id;
  }
  const sets = keys.map((key) => `${key} = :${key}`).join(', ');
  const done = ledger.db.prepare(`UPDATE ${table} SET ${sets} WHERE id = :id`).run({ id, ...values });
  if (done.changes === 0) throw notThere(table, id);
  return id;
}

/** @throws LotfileError `not found` where the row a new one rests on is not there. */
function mustHave(ledger: Ledger, table: CostTable, id: string | undefined): void {
  if (id === undefined) return;
  if (ledger.db.prepare<[string], unknown>(`SELECT 1 FROM ${table} WHERE id = ?`).get(id) === undefined) {
    throw notThere(table, id);
  }
}

function mustHaveOthers(ledger: Ledger, row: { subject?: string | undefined; edition?: string | undefined }): void {
  if (row.subject !== undefined) ledger.mustHave('subject', row.subject);
  if (row.edition !== undefined) ledger.mustHave('edition', row.edition);
}

export function putCostLine(ledger: Ledger, line: Kept<CostLine>): string {
  return ledger.act(`Cost line: ${line.title}`, () => {
    mustHaveOthers(ledger, line);
    const { id, sort, title, trade, subject, estimate, agreed, note } = line;
    if (sort === 'contingency') refuseSecondContingency(ledger, id);
    return put(ledger, 'cost_line', { id, columns: { sort, title, trade, subject, estimate, agreed, note } });
  });
}

function refuseSecondContingency(ledger: Ledger, id: string | undefined): void {
  const other = ledger.db
    .prepare<[string], string>("SELECT title FROM cost_line WHERE sort = 'contingency' AND id <> ?")
    .pluck()
    .get(id ?? '');
  if (other === undefined) return;
  throw new LotfileError('wrong use', 'There is a contingency already.', {
    about: other,
    next: 'Change its amount; two of them would each look untouched.',
  });
}

export function putChangeOrder(ledger: Ledger, order: Kept<ChangeOrder>): string {
  return ledger.act(`Change order ${order.number}: ${order.title}`, () => {
    mustHave(ledger, 'cost_line', order.line);
    mustHaveOthers(ledger, order);
    const { id, line, number, title, day, amount, fromContingency, edition } = order;
    const columns = { line, number, title, day, amount, from_contingency: fromContingency ? 1 : 0, edition };
    return put(ledger, 'change_order', { id, columns });
  });
}

export function putInvoice(ledger: Ledger, invoice: Kept<Invoice>): string {
  return ledger.act(`Invoice of ${invoice.payee}`, () => {
    mustHave(ledger, 'cost_line', invoice.line);
    mustHaveOthers(ledger, invoice);
    const { id, line, payee, subject, number, day, amount, held, edition } = invoice;
    return put(ledger, 'invoice', { id, columns: { line, payee, subject, number, day, amount, held, edition } });
  });
}

export function putPayment(ledger: Ledger, payment: Kept<Payment>): string {
  return ledger.act(`Payment on ${payment.day}`, () => {
    mustHave(ledger, 'invoice', payment.invoice);
    mustHaveOthers(ledger, payment);
    const { id, invoice, day, amount, how, cleared, edition } = payment;
    return put(ledger, 'payment', { id, columns: { invoice, day, amount, how, cleared, edition } });
  });
}

export function putNotice(ledger: Ledger, notice: Kept<SupplierNotice>): string {
  return ledger.act(`Notice of ${notice.supplier}`, () => {
    mustHaveOthers(ledger, notice);
    const { id, supplier, subject, day, since, delivers, edition } = notice;
    return put(ledger, 'supplier_notice', { id, columns: { supplier, subject, day, since, delivers, edition } });
  });
}

export function putWaiver(ledger: Ledger, waiver: Kept<Waiver>): string {
  return ledger.act(`Waiver, ${waiver.kind}, ${waiver.day}`, () => {
    mustHave(ledger, 'invoice', waiver.invoice);
    mustHave(ledger, 'supplier_notice', waiver.notice);
    mustHaveOthers(ledger, waiver);
    const { id, invoice, notice, kind, day, through, amount, exceptions, edition } = waiver;
    const conditional = kind === 'conditional progress' || kind === 'conditional final' ? 1 : 0;
    const final = kind === 'conditional final' || kind === 'unconditional final' ? 1 : 0;
    const columns = { invoice, notice, conditional, final, day, through, amount, exceptions, edition };
    return put(ledger, 'waiver', { id, columns });
  });
}

/** A draw is a subject too, so that its papers and its errand belong to it; a new one brings its own. */
export function putDraw(ledger: Ledger, draw: Kept<Omit<Draw, 'subject'>>): string {
  return ledger.act(`Draw ${draw.number}`, () => {
    for (const { line } of draw.lines) mustHave(ledger, 'cost_line', line);
    const { number, day, workRate, storedRate, final, asked, paid, paidAmount, anyway } = draw;
    const known =
      draw.id === undefined
        ? addSubject(ledger, { sort: 'draw', title: `Draw ${number}` })
        : ledger.db.prepare<[string], string>('SELECT subject FROM draw WHERE id = ?').pluck().get(draw.id);
    if (known === undefined) throw notThere('draw', draw.id ?? '');
    ledger.db.prepare('UPDATE subject SET title = ? WHERE id = ?').run(`Draw ${number}`, known);
    const sums = { work_rate: workRate, stored_rate: storedRate, final: final ? 1 : 0 };
    const columns = { number, subject: known, day, ...sums, asked, paid, paid_amount: paidAmount, anyway };
    const id = put(ledger, 'draw', { id: draw.id, columns });
    writeDrawLines(ledger, id, draw.lines);
    return id;
  });
}

function writeDrawLines(ledger: Ledger, draw: string, lines: Draw['lines']): void {
  ledger.db.prepare('DELETE FROM draw_line WHERE draw = ?').run(draw);
  const add = ledger.db.prepare('INSERT INTO draw_line (draw, line, work, stored) VALUES (?, ?, ?, ?)');
  for (const { line, work, stored } of lines) if (work !== 0 || stored !== 0) add.run(draw, line, work, stored);
}

/**
 * Takes a row away.
 * @throws LotfileError `not found`; `conflict` where others rest on it.
 */
export function removeCost(ledger: Ledger, table: CostTable, id: string): void {
  ledger.act(`Took away a ${names[table]}`, () => {
    mustHave(ledger, table, id);
    for (const [other, by, what] of resting[table] ?? []) {
      if (ledger.db.prepare<[string], unknown>(`SELECT 1 FROM ${other} WHERE ${by} = ?`).get(id) === undefined)
        continue;
      throw new LotfileError('conflict', `This ${names[table]} can't go: ${what} rest on it.`, {
        about: id,
        next: `Take away its ${what} first.`,
      });
    }
    if (table === 'draw') removeDraw(ledger, id);
    else ledger.db.prepare(`DELETE FROM ${table} WHERE id = ?`).run(id);
  });
}

function removeDraw(ledger: Ledger, id: string): void {
  const subject = ledger.db.prepare<[string], string>('SELECT subject FROM draw WHERE id = ?').pluck().get(id) ?? '';
  const rests = ledger.db
    .prepare<[string, string], unknown>(
      'SELECT 1 FROM paper WHERE subject = ? UNION SELECT 1 FROM visit WHERE subject = ?',
    )
    .get(subject, subject);
  if (rests !== undefined) {
    throw new LotfileError('conflict', "This draw can't go: papers or visits belong to it.", {
      about: id,
      next: 'Keep it, and set its lines to nothing.',
    });
  }
  ledger.db.prepare('DELETE FROM draw_line WHERE draw = ?').run(id);
  ledger.db.prepare('DELETE FROM draw WHERE id = ?').run(id);
  ledger.db.prepare('DELETE FROM subject WHERE id = ?').run(subject);
}
