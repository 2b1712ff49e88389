import { useState } from 'react';
import type { CostsAnswer, InvoiceRow } from '../../../core/desk/contract/cost-answers.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { moneyInWords } from '../../../core/vocabulary/money.ts';
import { Button } from '../../kit/Button.tsx';
import { Mark } from '../../kit/Mark.tsx';
import { perform } from '../../state/doing.ts';
import { addressOf } from '../../state/place.ts';
import { layOver } from './costs-store.ts';

function PaidLeg({ row }: { readonly row: InvoiceRow }) {
  const { amount, held, paid, payments } = row;
  const last = payments.at(-1);
  if (last === undefined) return <Mark word="not asked for" say="not paid" />;
  const part = paid < amount - held;
  const cleared = payments.every((payment) => payment.cleared !== undefined);
  return (
    <>
      <Mark
        word={part ? 'lapsing' : cleared ? 'in hand' : 'awaited'}
        say={part ? `${moneyInWords(paid)} paid` : cleared ? 'paid' : 'paid, not cleared'}
      />
      <span className="small pencil">{dayInWords(last.day)}</span>
    </>
  );
}

function WaiverLeg({ row }: { readonly row: InvoiceRow }) {
  const { waivers } = row;
  const unconditional = waivers.filter(({ kind }) => kind.startsWith('unconditional'));
  const [best] = unconditional.length > 0 ? unconditional : waivers;
  if (best === undefined) return <Mark word="not asked for" say="no waiver" />;
  const others = waivers.filter(({ notice }) => notice !== undefined).map(({ by }) => by);
  return (
    <>
      <Mark word={unconditional.length > 0 ? 'in hand' : 'awaited'} say={best.kind} />
      {others.length === 0 ? null : <span className="small pencil">also {[...new Set(others)].join(', ')}</span>}
    </>
  );
}

function Invoice({ row }: { readonly row: InvoiceRow }) {
  const { invoice, payee, number, day, amount, held, lineTitle, missing, payments } = row;
  const open = amount - row.paid;
  return (
    <li className="costs-invoice">
      <span className="small pencil">{dayInWords(day)}</span>
      <span className="who">
        <strong>{payee}</strong> <span className="mono small">{number}</span>
        <span className="small pencil more">
          {lineTitle}
          {held === 0 ? '' : `, ${moneyInWords(held)} held back`}
          {row.edition === undefined ? null : (
            <>
              {', '}
              <a href={addressOf('papers', row.edition, row.edition)}>the paper</a>
            </>
          )}
        </span>
      </span>
      <span className="sum">{moneyInWords(amount)}</span>
      <span className="leg">
        <PaidLeg row={row} />
      </span>
      <span className="leg">
        <WaiverLeg row={row} />
      </span>
      <span className="acts">
        {missing === undefined ? null : <span className="small missing">next: {missing}</span>}
        {open > 0 || payments.length > 0 ? (
          <Button
            as="word"
            small
            label={open > 0 ? `Note a payment to ${payee}` : `Payments to ${payee}`}
            onPress={() => layOver({ slip: 'payment', invoice: row })}
          >
            {open > 0 ? 'payment' : 'payments'}
          </Button>
        ) : null}
        <Button
          as="word"
          small
          label={`Note a waiver of ${payee}`}
          onPress={() => layOver({ slip: 'waiver', invoice: row })}
        >
          waiver
        </Button>
        <Button
          as="word"
          small
          label={`Change the invoice of ${payee}`}
          onPress={() => layOver({ slip: 'invoice', row })}
        >
          change
        </Button>
        {payments.length === 0 && row.waivers.length === 0 ? (
          <Button
            as="word"
            small
            label={`Take away the invoice of ${payee}`}
            onPress={() =>
              void perform(
                'remove-cost',
                { what: 'invoice', row: invoice },
                { say: `Took the invoice of ${payee} away.` },
              )
            }
          >
            take away
          </Button>
        ) : null}
      </span>
    </li>
  );
}

/** Settled ones fold away when they become many: what still misses a leg is what one comes for. */
const fewSettled = 12;

function List({ invoices }: { readonly invoices: readonly InvoiceRow[] }) {
  const [all, showAll] = useState(false);
  const settled = invoices.filter(({ missing }) => missing === undefined);
  const folded = !all && settled.length > fewSettled;
  const kept = new Set(settled.slice(0, fewSettled));
  const shown = folded ? invoices.filter((row) => row.missing !== undefined || kept.has(row)) : invoices;
  return (
    <>
      <ul className="costs-invoices">
        {shown.map((row) => (
          <Invoice key={row.invoice} row={row} />
        ))}
      </ul>
      {settled.length > fewSettled ? (
        <div className="costs-acts under">
          <Button as="word" onPress={() => showAll(!all)}>
            {folded ? `show ${settled.length - fewSettled} more that are settled` : 'show fewer'}
          </Button>
        </div>
      ) : null}
    </>
  );
}

/** Invoice, payment, waiver: the three legs of every sum, payee by payee. */
export function Invoices({ costs }: { readonly costs: CostsAnswer }) {
  const { invoices } = costs;
  return (
    <section className="costs-part" aria-labelledby="costs-invoices">
      <header>
        <h2 id="costs-invoices">Invoice, payment, waiver</h2>
        <Button onPress={() => layOver({ slip: 'invoice' })}>Note an invoice</Button>
      </header>
      {invoices.length === 0 ? (
        <p className="pencil">
          No invoice yet. Note each one as it comes, receipts too: a draw shows what its money is for, and every payee’s
          waiver goes with the payment.
        </p>
      ) : (
        <List invoices={invoices.toReversed()} />
      )}
    </section>
  );
}
