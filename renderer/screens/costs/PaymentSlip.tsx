import { useState } from 'react';
import type { InvoiceRow } from '../../../core/desk/contract/cost-answers.ts';
import { type Day, dayInWords } from '../../../core/vocabulary/days.ts';
import { moneyInWords } from '../../../core/vocabulary/money.ts';
import { Button } from '../../kit/Button.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { PaperPick } from '../../kit/PaperPick.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { perform } from '../../state/doing.ts';
import { addressOf } from '../../state/place.ts';
import { useDay } from '../../state/session.ts';
import { layOver } from './costs-store.ts';
import { filled, said, typedSum } from './sums.ts';

/** Payments made before, each with a way to say that it cleared or to take it away. */
function Before({ invoice }: { readonly invoice: InvoiceRow }) {
  const today = useDay();
  if (invoice.payments.length === 0) return null;
  return (
    <ul className="costs-before">
      {invoice.payments.map(({ payment, day, amount, how, cleared, edition, calls, waived }) => (
        <li key={payment}>
          {dayInWords(day)}: {moneyInWords(amount)}, {how}
          {cleared === undefined ? '' : `, cleared ${dayInWords(cleared)}`}{' '}
          {cleared === undefined ? (
            <Button
              as="word"
              small
              onPress={() => void perform('payment', { row: payment, cleared: today }, { say: 'Noted: it cleared.' })}
            >
              it cleared
            </Button>
          ) : null}{' '}
          <Button
            as="word"
            small
            onPress={() =>
              void perform('remove-cost', { what: 'payment', row: payment }, { say: 'Took the payment away.' })
            }
          >
            take away
          </Button>
          {edition === undefined ? null : (
            <>
              {' '}
              <a href={addressOf('papers', edition, edition)}>the paper</a>
            </>
          )}
          {calls === undefined ? null : (
            <p className="small">
              Its waiver, {calls}: {waived ? 'noted' : 'not noted'}.{' '}
              {waived ? null : (
                <Button
                  as="word"
                  small
                  onPress={() => layOver({ slip: 'waiver', invoice, payment })}
                  label={`Note it: ${calls} waiver, payment of ${dayInWords(day)}`}
                >
                  note it
                </Button>
              )}
            </p>
          )}
        </li>
      ))}
    </ul>
  );
}

/** A payment on an invoice: how, when, and when the money was seen to arrive. */
export function PaymentSlip({ invoice, onClose }: { readonly invoice: InvoiceRow; readonly onClose: () => void }) {
  const today = useDay();
  const [amount, setAmount] = useState(typedSum(Math.max(0, invoice.amount - invoice.held - invoice.paid)));
  const [how, setHow] = useState('');
  const [day, setDay] = useState<Day | undefined>(today);
  const [cleared, setCleared] = useState<Day>();
  const [edition, setEdition] = useState<string>();
  const keep = async (): Promise<void> => {
    const payment = filled({ invoice: invoice.invoice, amount: said(amount), how: said(how), day, cleared, edition });
    const reply = await perform('payment', payment, { say: `Noted the payment to ${invoice.payee}.` });
    if (reply.ok) onClose();
  };
  return (
    <Slip
      title={`Payment to ${invoice.payee}`}
      open
      onClose={onClose}
      foot={
        <Button as="stamp" disabled={amount.trim() === ''} onPress={() => void keep()}>
          Note it
        </Button>
      }
    >
      <p className="small">
        Invoice of {dayInWords(invoice.day)}: {moneyInWords(invoice.amount)}, {moneyInWords(invoice.paid)} paid so far.
      </p>
      <Before invoice={invoice} />
      <div className="costs-pair">
        <Field label="Amount, in dollars" value={amount} onChange={setAmount} autoFocus />
        <Field label="How" value={how} onChange={setHow} placeholder="for example: cheque 118" />
      </div>
      <div className="costs-pair">
        <DayField label="Paid on" value={day} onChange={setDay} />
        <DayField
          label="Cleared on, once it has"
          value={cleared}
          onChange={setCleared}
          hint="A conditional waiver takes effect with this."
        />
      </div>
      <PaperPick
        label="Receipt or bank statement, where it is kept"
        value={edition}
        onChange={setEdition}
        first={/check|cheque|payment|receipt|statement|bank/i}
      />
    </Slip>
  );
}
