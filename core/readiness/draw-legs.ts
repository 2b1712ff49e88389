import { paidOn } from '../figures/cost-ledger.ts';
import type { CostBook, Draw, Invoice, SupplierNotice, Waiver } from '../vocabulary/costs.ts';
import type { Day } from '../vocabulary/days.ts';
import type { Cents } from '../vocabulary/money.ts';

/** How far a signature reaches: money may still be on its way (conditional), or has come. */
export type WaiverLeg = 'none' | 'conditional' | 'effective' | 'unconditional';

/** One who can claim a lien for an invoice: the payee, or a supplier who gave notice of delivering to it. */
export interface Signer {
  readonly name: string;
  readonly notice: string | undefined;
  readonly waiver: WaiverLeg;
  /** It is for the whole job, not only through a day. */
  readonly final: boolean;
  /** What a waiver of theirs leaves out: that much of their claim stands. */
  readonly leavesOut?: string | undefined;
}

/** The legs of one invoice as a lender looks at them. */
export interface InvoiceLegs {
  readonly invoice: Invoice;
  /** An earlier draw asked for it: its money has to have arrived. */
  readonly earlier: boolean;
  readonly paid: Cents;
  /** Payable now: the amount less what is held back, or all of it with the last draw. */
  readonly payable: Cents;
  readonly signers: readonly Signer[];
}

function isConditional({ kind }: Waiver): boolean {
  return kind === 'conditional progress' || kind === 'conditional final';
}

function isFinal({ kind }: Waiver): boolean {
  return kind === 'conditional final' || kind === 'unconditional final';
}

/**
 * The best waiver counts. A conditional one takes effect with evidence of payment: the cheque deposited, or receipt
 * acknowledged in writing (California Civil Code 8124; other states word it alike).
 */
function signerOf(
  waivers: readonly Waiver[],
  given: { name: string; notice: string | undefined; arrived: boolean },
): Signer {
  const { name, notice, arrived } = given;
  const own = waivers.filter((waiver) => waiver.notice === notice);
  const leavesOut = own.findLast(({ exceptions }) => exceptions !== undefined)?.exceptions;
  const about = { name, notice, final: own.some(isFinal), leavesOut };
  if (own.some((waiver) => !isConditional(waiver))) return { ...about, waiver: 'unconditional' };
  if (own.length === 0) return { ...about, waiver: 'none' };
  return { ...about, waiver: arrived ? 'effective' : 'conditional' };
}

function noticesFor(book: CostBook, invoice: Invoice, draw: Draw): readonly SupplierNotice[] {
  return book.notices.filter(
    ({ subject, day, since }) =>
      subject === invoice.subject && day <= draw.day && (since === undefined || since <= invoice.day),
  );
}

/**
 * An unconditional final waiver gives up a claimant's rights for the whole job (California Civil Code 8138, from
 * memory; other states word it alike): signed with a later invoice, it covers the earlier ones of the same firm, unless
 * it leaves something out; then it says nothing of any but its own.
 */
export function finalsAfter(book: CostBook, invoice: Invoice, by: Day): readonly Waiver[] {
  const later = new Set(
    book.invoices
      .filter(({ id, payee, day }) => id !== invoice.id && payee === invoice.payee && day >= invoice.day)
      .map(({ id }) => id),
  );
  return book.waivers.filter(
    ({ kind, exceptions, invoice: signed, day }) =>
      kind === 'unconditional final' && exceptions === undefined && later.has(signed) && day <= by,
  );
}

function legsOf(book: CostBook, invoice: Invoice, given: { draw: Draw; before: Draw | undefined }): InvoiceLegs {
  const { draw, before } = given;
  const paid = paidOn(book, invoice);
  const payable = draw.final ? invoice.amount : invoice.amount - invoice.held;
  const payments = book.payments.filter((payment) => payment.invoice === invoice.id);
  const arrived = paid >= payable && payments.every(({ cleared }) => cleared !== undefined && cleared <= draw.day);
  const own = book.waivers.filter((waiver) => waiver.invoice === invoice.id && waiver.day <= draw.day);
  const waivers = [...own, ...finalsAfter(book, invoice, draw.day)];
  const notices = noticesFor(book, invoice, draw);
  return {
    invoice,
    earlier: before !== undefined && invoice.day <= before.day,
    paid,
    payable,
    signers: [
      signerOf(waivers, { name: invoice.payee, notice: undefined, arrived }),
      ...notices.map(({ id, supplier }) => signerOf(waivers, { name: supplier, notice: id, arrived })),
    ],
  };
}

/** The invoices a draw rests on, with what is there of payment and waiver. Land is no part of it. */
export function drawLegs(book: CostBook, draw: Draw): readonly InvoiceLegs[] {
  const before = book.draws.findLast(({ number }) => number < draw.number);
  const lines = new Set(book.lines.filter(({ sort }) => sort !== 'land').map(({ id }) => id));
  return book.invoices
    .filter(({ line, day }) => lines.has(line) && day <= draw.day)
    .map((invoice) => legsOf(book, invoice, { draw, before }));
}
