import type { Lot } from '../../store/index.ts';
import { type Invoice, waiverKinds } from '../../vocabulary/costs.ts';
import { dayInWords } from '../../vocabulary/days.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import { moneyInWords } from '../../vocabulary/money.ts';
import { type AtLot, onLot } from '../context.ts';
import { requests } from '../contract/requests.ts';
import { editionNamed, subjectNamed } from '../named.ts';
import { centsSaid, plainCents } from './amounts.ts';
import { invoiceNamed, lineNamed, needed, noticeNamed, orderNamed, rowById } from './cost-named.ts';
import { acted } from './record-card.ts';

/** Lines, change orders, invoices, payments, notices and waivers: each noted or changed as one undoable act. */

interface Done {
  readonly act: string;
  readonly row: string;
}

function kept(at: AtLot, title: string, put: (lot: Lot) => string): Done {
  let row = '';
  const { act } = acted(at, title, () => {
    row = put(at.lot);
  });
  return { act, row };
}

function firmNamed(at: AtLot, said: string | undefined): { readonly id: string; readonly firm: string } | undefined {
  if (said === undefined) return undefined;
  const { id, sort, firm, title } = subjectNamed(at.lot.view(), said);
  if (sort === 'engagement') return { id, firm: firm ?? title };
  throw new LotfileError('wrong use', `"${title}" is no firm.`, { about: said, next: 'Name a firm: trades.' });
}

function editionId(at: AtLot, said: string | undefined): string | undefined {
  if (said === undefined) return undefined;
  return editionNamed({ view: at.lot.view(), practice: at.lot.practice(), day: at.day }, said).edition.id;
}

export const costLine = onLot(requests['cost-line'], (said, at): Done => {
  const known = said.row === undefined ? undefined : lineNamed(at.lot.costs(), said.row);
  const title = said.title ?? needed(known?.title, 'a title');
  const estimate = plainCents(said.estimate, 'estimate') ?? known?.estimate ?? 0;
  const agreed = plainCents(said.agreed, 'price agreed') ?? known?.agreed;
  const sort = said.sort ?? known?.sort ?? 'work';
  if (sort === 'contingency' && agreed !== undefined) {
    throw new LotfileError('wrong use', 'No price is agreed for a contingency.', {
      about: title,
      next: 'Set how much is planned for it; change orders take from it.',
    });
  }
  return kept(at, `${known === undefined ? 'Noted the cost line' : 'Changed the cost line'}: ${title}`, (lot) =>
    lot.putCostLine({
      id: known?.id,
      sort,
      title,
      trade: said.trade ?? known?.trade,
      subject: firmNamed(at, said.firm)?.id ?? known?.subject,
      estimate,
      agreed,
      note: said.note ?? known?.note,
    }),
  );
});

/** "3" after "2"; numbers of another shape count on as well, by how many there are. */
function nextNumber(numbers: readonly string[]): string {
  return String(Math.max(numbers.length, ...numbers.map(Number).filter(Number.isInteger)) + 1);
}

export const changeOrder = onLot(requests['change-order'], (said, at): Done => {
  const book = at.lot.costs();
  const known = said.row === undefined ? undefined : orderNamed(book, said.row);
  const line = said.line === undefined ? needed(known?.line, 'a line') : lineNamed(book, said.line).id;
  const owner = rowById(book.lines, line, 'cost line');
  const amount = said.amount === undefined ? needed(known?.amount, 'an amount') : centsSaid(said.amount, 'amount');
  const fromContingency = said.fromContingency ?? known?.fromContingency ?? false;
  const [title, day] = [said.title ?? known?.title ?? owner.title, said.day ?? known?.day ?? at.day];
  if (amount === 0) {
    throw new LotfileError('wrong use', 'A change order of nothing changes nothing.', {
      about: title,
      next: 'Say by how much.',
    });
  }
  if (owner.sort === 'contingency') {
    throw new LotfileError('wrong use', 'The contingency itself has no change orders.', {
      about: owner.title,
      next: 'Note it on the trade that needs it and say that the contingency gives it, or change its amount.',
    });
  }
  if (fromContingency && !book.lines.some(({ sort }) => sort === 'contingency')) {
    throw new LotfileError('wrong use', 'There is no contingency to take it from.', {
      about: title,
      next: 'Note one first: cost-line Contingency --sort contingency.',
    });
  }
  const number = said.number ?? known?.number ?? nextNumber(book.changeOrders.map((order) => order.number));
  return kept(at, `Change order ${number}, ${owner.title}: ${moneyInWords(amount)}`, (lot) =>
    lot.putChangeOrder({
      id: known?.id,
      line,
      number,
      title,
      day,
      amount,
      fromContingency,
      edition: editionId(at, said.edition) ?? known?.edition,
    }),
  );
});

export const invoice = onLot(requests.invoice, (said, at): Done => {
  const book = at.lot.costs();
  const known = said.row === undefined ? undefined : invoiceNamed(book, said.row);
  const line =
    said.line === undefined
      ? rowById(book.lines, needed(known?.line, 'a line'), 'cost line')
      : lineNamed(book, said.line);
  const firm = firmNamed(at, said.firm) ?? firmNamed(at, known?.subject ?? line.subject);
  const amount = needed(plainCents(said.amount, 'amount') ?? known?.amount, 'an amount');
  const held = plainCents(said.held, 'amount held back') ?? known?.held ?? 0;
  const payee = said.payee ?? known?.payee ?? needed(firm?.firm, 'a payee');
  if (amount === 0 || held > amount) {
    const what = amount === 0 ? 'An invoice of nothing is none.' : 'More is held back than the invoice asks for.';
    throw new LotfileError('wrong use', what, { about: payee, next: 'Look at the two amounts again.' });
  }
  return kept(at, `Invoice of ${payee}: ${moneyInWords(amount)}`, (lot) =>
    lot.putInvoice({
      id: known?.id,
      line: line.id,
      payee,
      subject: firm?.id,
      number: said.number ?? known?.number,
      day: said.day ?? known?.day ?? at.day,
      amount,
      held,
      edition: editionId(at, said.edition) ?? known?.edition,
    }),
  );
});

function refuseOverpaying(at: AtLot, invoice: Invoice, paying: { id: string | undefined; amount: number }): void {
  const others = at.lot
    .costs()
    .payments.filter((payment) => payment.invoice === invoice.id && payment.id !== paying.id)
    .reduce((sum, { amount }) => sum + amount, 0);
  if (others + paying.amount <= invoice.amount) return;
  const left = moneyInWords(invoice.amount - others);
  throw new LotfileError(
    'wrong use',
    `That is more than is open on this invoice: ${left} of ${moneyInWords(invoice.amount)}.`,
    {
      about: invoice.payee,
      next: 'Correct the invoice first, or note the rest on another one.',
    },
  );
}

export const payment = onLot(requests.payment, (said, at): Done => {
  const book = at.lot.costs();
  const known = said.row === undefined ? undefined : rowById(book.payments, said.row, 'payment');
  const paid = invoiceNamed(book, said.invoice ?? needed(known?.invoice, 'an invoice'));
  const open = paid.amount - paid.held;
  const amount = plainCents(said.amount, 'amount') ?? known?.amount ?? open;
  const day = said.day ?? known?.day ?? at.day;
  const cleared = said.cleared ?? known?.cleared;
  if (amount === 0)
    throw new LotfileError('wrong use', 'A payment of nothing is none.', {
      about: paid.payee,
      next: 'Say how much was paid.',
    });
  if (cleared !== undefined && cleared < day) {
    throw new LotfileError(
      'wrong use',
      `A payment of ${dayInWords(day)} can't have cleared on ${dayInWords(cleared)}.`,
      {
        about: paid.payee,
        next: 'See which of the two days is right.',
      },
    );
  }
  refuseOverpaying(at, paid, { id: known?.id, amount });
  const how = said.how ?? known?.how ?? 'cheque';
  return kept(at, `Paid ${paid.payee}: ${moneyInWords(amount)}`, (lot) =>
    lot.putPayment({
      id: known?.id,
      invoice: paid.id,
      day,
      amount,
      how,
      cleared,
      edition: editionId(at, said.edition) ?? known?.edition,
    }),
  );
});

export const waiver = onLot(requests.waiver, (said, at): Done => {
  const book = at.lot.costs();
  const known = said.row === undefined ? undefined : rowById(book.waivers, said.row, 'waiver');
  const signedFor = invoiceNamed(book, said.invoice ?? needed(known?.invoice, 'an invoice'));
  const notice = said.notice === undefined ? known?.notice : noticeNamed(book, said.notice).id;
  const supplier = notice === undefined ? undefined : rowById(book.notices, notice, 'notice').supplier;
  const kind = said.kind ?? needed(known?.kind, `one of: ${waiverKinds.join(', ')}`);
  return kept(at, `Waiver of ${supplier ?? signedFor.payee}, ${kind}`, (lot) =>
    lot.putWaiver({
      id: known?.id,
      invoice: signedFor.id,
      notice,
      kind,
      day: said.day ?? known?.day ?? at.day,
      through: said.through ?? known?.through,
      amount: plainCents(said.amount, 'amount') ?? known?.amount,
      exceptions: said.exceptions ?? known?.exceptions,
      edition: editionId(at, said.edition) ?? known?.edition,
    }),
  );
});

export const notice = onLot(requests.notice, (said, at): Done => {
  const book = at.lot.costs();
  const known = said.row === undefined ? undefined : noticeNamed(book, said.row);
  const supplier = said.supplier ?? needed(known?.supplier, 'the supplier');
  const subject = firmNamed(at, said.firm)?.id ?? needed(known?.subject, 'the firm it delivers for');
  return kept(at, `Notice of ${supplier}`, (lot) =>
    lot.putNotice({
      id: known?.id,
      supplier,
      subject,
      day: said.day ?? known?.day ?? at.day,
      since: said.since ?? known?.since,
      delivers: said.delivers ?? known?.delivers,
      edition: editionId(at, said.edition) ?? known?.edition,
    }),
  );
});
