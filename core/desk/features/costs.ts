import { costLedger, type LedgerRow, paidOn } from '../../figures/cost-ledger.ts';
import { valueWithoutLand } from '../../figures/insurance.ts';
import { type Asked, currentEdition, finalsAfter } from '../../readiness/index.ts';
import type { CostBook, Invoice, Waiver } from '../../vocabulary/costs.ts';
import { dayInWords } from '../../vocabulary/days.ts';
import type { Finding } from '../../vocabulary/finding.ts';
import { moneyInWords } from '../../vocabulary/money.ts';
import type { Basis } from '../../vocabulary/practice.ts';
import { type AtLot, onLot } from '../context.ts';
import type { CostRow, CostsAnswer, InvoiceRow, NoticeRow, ValueRow, WaiverRow } from '../contract/cost-answers.ts';
import { requests } from '../contract/requests.ts';
import { askedOf } from './asked.ts';
import { drawRow, readingOf } from './draws.ts';
import { feesOf } from './fee-rows.ts';
import { paymentRows } from './payment-rows.ts';

/** The ledger: what it was estimated at, what is agreed, paid, still to pay; and what hangs on each sum. */

/** As a person calls the firm: without its trade behind it. */
function firmName({ lot }: Asked, subject: string | undefined): string | undefined {
  const engaged = lot.subjects.find(({ id }) => id === subject);
  return engaged?.firm ?? engaged?.title;
}

function costRow({ line, ...sums }: LedgerRow, asked: Asked): CostRow {
  const { id, sort, title, trade, subject, estimate, agreed: price, note } = line;
  const { changes, agreed, billed, paid, held, toPay } = sums;
  const firm = firmName(asked, subject);
  return {
    line: id,
    sort,
    title,
    trade,
    subject,
    firm,
    estimate,
    price,
    changes,
    agreed,
    billed,
    paid,
    held,
    toPay,
    note,
  };
}

export function waiverRow(waiver: Waiver, book: CostBook): WaiverRow {
  const { id, kind, notice, day, through, amount, exceptions, edition } = waiver;
  const payee = book.invoices.find((invoice) => invoice.id === waiver.invoice)?.payee ?? '';
  const by = book.notices.find((each) => each.id === notice)?.supplier ?? payee;
  return { waiver: id, kind, by, notice, day, through, amount, exceptions, edition };
}

/** The next leg that is missing: payment, then the unconditional waiver; before it the conditional one. */
/** Whatever is noted counts here, on whichever day it was signed. */
const lastDay = '9999-12-31';

function missingLeg(book: CostBook, invoice: Invoice): string | undefined {
  const paid = paidOn(book, invoice);
  // Whoever sold the land built nothing on it, and has no lien to waive.
  const land = book.lines.some(({ id, sort }) => id === invoice.line && sort === 'land');
  const own = book.waivers.filter((waiver) => waiver.invoice === invoice.id && waiver.notice === undefined);
  const unconditional =
    own.some(({ kind }) => kind === 'unconditional progress' || kind === 'unconditional final') ||
    finalsAfter(book, invoice, lastDay).length > 0;
  if (paid < invoice.amount - invoice.held) {
    return own.length === 0 && !land ? 'waiver with the request, then payment' : 'payment';
  }
  if (land) return undefined;
  if (!unconditional) return 'unconditional waiver';
  const suppliers = book.notices.filter(({ subject }) => subject === invoice.subject);
  const open = suppliers.filter(
    ({ id }) => !book.waivers.some((each) => each.invoice === invoice.id && each.notice === id),
  );
  return open.length === 0 ? undefined : `waiver of ${open.map(({ supplier }) => supplier).join(', ')}`;
}

export function invoiceRow(invoice: Invoice, book: CostBook): InvoiceRow {
  const { id, line, payee, subject, number, day, amount, held, edition } = invoice;
  return {
    invoice: id,
    line,
    lineTitle: book.lines.find((each) => each.id === line)?.title ?? '',
    payee,
    subject,
    number: number ?? '',
    day,
    amount,
    held,
    edition,
    paid: paidOn(book, invoice),
    payments: paymentRows(invoice, book),
    waivers: book.waivers.filter((waiver) => waiver.invoice === id).map((waiver) => waiverRow(waiver, book)),
    missing: missingLeg(book, invoice),
  };
}

export function noticeRows(book: CostBook, asked: Asked): readonly NoticeRow[] {
  return book.notices.map(({ id, supplier, subject, day, since, delivers }) => ({
    notice: id,
    supplier,
    subject,
    firm: firmName(asked, subject) ?? '',
    day,
    since,
    delivers: delivers ?? '',
    released: book.waivers.some(({ notice, kind }) => notice === id && kind === 'unconditional final'),
  }));
}

/** Cover of the building while it is built, newest kind of paper first: the policy, else its binder. */
const insuringKinds = ['builders-risk-policy', 'builders-risk-binder', 'homeowners-policy', 'homeowners-binder'];

function moneyAnswer(asked: Asked, question: string): number | undefined {
  const answer = asked.lot.answers[question];
  return answer?.sort === 'money' ? answer.value : undefined;
}

function insuredValue(asked: Asked): Pick<ValueRow, 'insured' | 'insuredBy'> {
  for (const kind of insuringKinds) {
    const edition = asked.practice.papers[kind] === undefined ? undefined : currentEdition({ kind }, asked);
    const fact = edition?.facts.insured_value;
    if (edition === undefined || fact?.sort !== 'money') continue;
    const title = asked.practice.papers[kind]?.title ?? kind;
    return { insured: fact.value, insuredBy: { edition: edition.id, paper: edition.paper, title } };
  }
  return {};
}

export function valueRow(asked: Asked): ValueRow {
  const [completed, land] = [moneyAnswer(asked, 'completed_value'), moneyAnswer(asked, 'land_value')];
  const withoutLand = completed === undefined || land === undefined ? undefined : valueWithoutLand(completed, land);
  const { insured, insuredBy } = insuredValue(asked);
  const difference = withoutLand === undefined || insured === undefined ? undefined : insured - withoutLand;
  return { completed, land, withoutLand, insured, insuredBy, difference };
}

const common: Basis = { on: 'common practice' };

interface Told {
  readonly weight: Finding['weight'];
  readonly say: string;
  readonly why: string;
  readonly remedy: string;
}

function told({ weight, say, why, remedy }: Told): Finding {
  return { weight, sort: 'disagree', say, why, basis: common, remedy: { say: remedy }, final: false };
}

/** At least a quarter on top: common practice for an owner who builds, no source. */
const usualBuffer = 2500;

function contingencyFindings(book: CostBook): readonly Finding[] {
  const { contingency, rows } = costLedger(book);
  if (rows.length === 0) return [];
  const why = 'What nobody foresaw has to be paid as well. A bank’s breakdown often shows a small part of it only.';
  if (contingency === undefined) {
    const remedy = 'Add a contingency line; a quarter of the estimated work is a common measure.';
    return [told({ weight: 'ask first', say: 'The estimate has no contingency.', why, remedy })];
  }
  if (contingency.left < 0) {
    const say = `The contingency is used up: ${moneyInWords(-contingency.left)} more is agreed than it holds.`;
    const remedy = 'Find the money, or agree less, before anything more is ordered.';
    return [told({ weight: 'questioned', say, why, remedy })];
  }
  if (contingency.share === undefined || contingency.share >= usualBuffer) return [];
  const percent = Math.round(contingency.share / 10) / 10;
  const say = `The contingency is ${percent} % of the estimated work; owners who build commonly keep 25 % or more.`;
  const remedy = 'Keep the rest where this breakdown doesn’t show it, or know why less is enough.';
  return [told({ weight: 'good to know', say, why, remedy })];
}

function paidFindings(book: CostBook): readonly Finding[] {
  return costLedger(book)
    .rows.filter(({ over }) => over > 0)
    .map(({ line, over, expected }) =>
      told({
        weight: 'questioned',
        say: `${line.title}: ${moneyInWords(over)} more is paid than the ${moneyInWords(expected)} it was to come to.`,
        why: 'What is paid beyond the price is hard to get back.',
        remedy: 'Look at the invoices again, or note the change order it was for.',
      }),
    );
}

function valueFindings({ difference, insured, withoutLand, insuredBy }: ValueRow): readonly Finding[] {
  if (difference === undefined || difference >= 0) return [];
  const short = moneyInWords(-difference);
  const say = `Insured for ${moneyInWords(insured ?? 0)}, and the house without the land is ${moneyInWords(withoutLand ?? 0)}: ${short} short.`;
  const why =
    'Cover on the finished value wants the whole of it from the start; short cover pays only a part of any loss.';
  const finding = told({ weight: 'questioned', say, why, remedy: 'Ask the insurer in writing to raise the limit.' });
  return [{ ...finding, edition: insuredBy?.edition, paper: insuredBy?.paper }];
}

const order: Readonly<Record<Finding['weight'], number>> = {
  refused: 0,
  questioned: 1,
  'ask first': 2,
  'good to know': 3,
};

/** All of the costs, light enough to be asked at every change. */
export function costsOf(at: Pick<AtLot, 'lot' | 'day'>): CostsAnswer {
  const asked = askedOf(at);
  const book = at.lot.costs();
  const { rows, contingency, totals } = costLedger(book);
  const buffer = book.lines.find(({ sort }) => sort === 'contingency');
  const value = valueRow(asked);
  const findings = [...paidFindings(book), ...contingencyFindings(book), ...valueFindings(value)];
  return {
    day: at.day,
    rows: rows.map((row) => costRow(row, asked)),
    contingency:
      contingency === undefined || buffer === undefined
        ? undefined
        : { line: buffer.id, title: buffer.title, ...contingency },
    totals,
    orders: book.changeOrders.map(({ id, line, number, title, day, amount, fromContingency, edition }) => {
      const lineTitle = book.lines.find((each) => each.id === line)?.title ?? '';
      return { order: id, line, lineTitle, number, title, day, amount, fromContingency, edition };
    }),
    invoices: book.invoices.map((invoice) => invoiceRow(invoice, book)),
    notices: noticeRows(book, asked),
    draws: book.draws.map(({ id }) => drawRow(readingOf(at, id), book)),
    value,
    fees: feesOf(asked),
    findings: findings.toSorted((a, b) => order[a.weight] - order[b.weight]),
    firms: asked.lot.subjects
      .filter(({ sort }) => sort === 'engagement')
      .map(({ id, title, from }) => ({
        subject: id,
        title: from === undefined ? title : `${title}, from ${dayInWords(from)}`,
      })),
  };
}

export const costs = onLot(requests.costs, (_input, at) => costsOf(at));
