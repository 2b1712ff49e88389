import { costLedger } from '../../figures/cost-ledger.ts';
import type { CostBook, Invoice, Payment, Waiver, WaiverKind } from '../../vocabulary/costs.ts';
import type { PaymentRow } from '../contract/cost-answers.ts';

/** A waiver says as much as another where it is no less final and no more conditional. */
function saysAsMuch(kind: WaiverKind, wanted: WaiverKind): boolean {
  const [unconditional, final] = [kind.startsWith('unconditional'), kind.endsWith('final')];
  return (unconditional || wanted.startsWith('conditional')) && (final || wanted.endsWith('progress'));
}

function byDay(payments: readonly Payment[]): readonly Payment[] {
  return payments.toSorted((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
}

/** The payment that left nothing to pay of an agreed price: its waiver is for the whole job. */
function lastPayment(line: string, book: CostBook): string | undefined {
  const row = costLedger(book).rows.find((each) => each.line.id === line);
  if (row?.agreed === undefined || row.toPay > 0 || row.held > 0) return undefined;
  const invoices = new Set(book.invoices.filter((invoice) => invoice.line === line).map(({ id }) => id));
  return byDay(book.payments.filter(({ invoice }) => invoices.has(invoice))).at(-1)?.id;
}

/** A waiver and how much of what it names no payment has used yet. */
interface Reach {
  readonly waiver: Waiver;
  left: number;
}

/** One that names a sum reaches as far as the sum; one that names none, every payment through its day. */
function reaches({ waiver, left }: Reach, { amount, day }: Payment): boolean {
  if (waiver.amount !== undefined) return left >= amount;
  return waiver.kind.startsWith('conditional') || day <= (waiver.through ?? waiver.day);
}

/**
 * Each payment with the waiver that goes with it: conditional until the money is seen to have come, final with the
 * payment that leaves nothing open. A waiver counts for as many payments as its sum covers, and no more; whoever sold
 * the land built nothing on it, and is asked for none. Source of the four kinds: California Civil Code 8132 to 8138;
 * their sequence is common practice in lenders' instructions.
 */
export function paymentRows(invoice: Invoice, book: CostBook): readonly PaymentRow[] {
  const own = byDay(book.payments.filter((payment) => payment.invoice === invoice.id));
  const land = book.lines.some(({ id, sort }) => id === invoice.line && sort === 'land');
  const all: Reach[] = book.waivers
    .filter((waiver) => waiver.invoice === invoice.id && waiver.notice === undefined)
    .map((waiver) => ({ waiver, left: waiver.amount ?? 0 }));
  const last = lastPayment(invoice.line, book);
  return own.map((payment) => {
    const { id, day, amount, how, cleared, edition } = payment;
    const row = { payment: id, day, amount, how, cleared, edition };
    if (land) return { ...row, waived: false };
    const calls: WaiverKind = `${cleared === undefined ? 'conditional' : 'unconditional'} ${id === last ? 'final' : 'progress'}`;
    const fits = all.filter((each) => saysAsMuch(each.waiver.kind, calls) && reaches(each, payment));
    const one = fits.find(({ left }) => left === amount) ?? fits[0];
    if (one?.waiver.amount !== undefined) one.left -= amount;
    return { ...row, calls, waived: one !== undefined };
  });
}
