import { useState } from 'react';
import type { CostsAnswer, InvoiceRow, PaymentRow } from '../../../core/desk/contract/cost-answers.ts';
import { type WaiverKind, waiverKinds } from '../../../core/vocabulary/costs.ts';
import { type Day, dayInWords } from '../../../core/vocabulary/days.ts';
import { moneyInWords } from '../../../core/vocabulary/money.ts';
import { Button } from '../../kit/Button.tsx';
import { Choices } from '../../kit/Choices.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { Mark } from '../../kit/Mark.tsx';
import { PaperPick } from '../../kit/PaperPick.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { perform } from '../../state/doing.ts';
import { addressOf } from '../../state/place.ts';
import { useDay } from '../../state/session.ts';
import { filled, said, typedSum } from './sums.ts';

function isKind(text: string): text is WaiverKind {
  return waiverKinds.some((kind) => kind === text);
}

/** Before the money a conditional one, after it the one its newest payment calls for. */
function usualKind({ amount, held, paid, payments }: InvoiceRow, payment: PaymentRow | undefined): WaiverKind {
  if (payment?.calls !== undefined) return payment.calls;
  const last = payments.find(({ waived }) => !waived) ?? payments.at(-1);
  return (paid >= amount - held ? last?.calls : undefined) ?? 'conditional progress';
}

/** What each of the four says, in plain words; the words of the form itself are the statute's. */
const kindSays: Readonly<Record<WaiverKind, string>> = {
  'conditional progress': 'Goes with the request: gives up the right through a day, once this money has come.',
  'unconditional progress': 'After this money came: gives up the right through a day, whatever happens.',
  'conditional final': 'Goes with the last request: gives up the whole right, once the last money has come.',
  'unconditional final': 'After the last money came: gives up the whole right, whatever happens.',
};

interface ByPaymentProps {
  readonly invoice: InvoiceRow;
  readonly onChoose: (payment: PaymentRow) => void;
}

/** Payment by payment, which of the four goes with it, and whether it is there. */
function ByPayment({ invoice, onChoose }: ByPaymentProps) {
  const owed = invoice.payments.filter(({ calls }) => calls !== undefined);
  if (owed.length === 0) return null;
  return (
    <ul className="costs-before" aria-label="Waivers by payment">
      {owed.map((payment) => (
        <li key={payment.payment}>
          {dayInWords(payment.day)}: {moneyInWords(payment.amount)}, {payment.how}
          {payment.cleared === undefined ? ', not seen to have cleared' : ''}: {payment.calls}{' '}
          {payment.waived ? (
            <Mark word="in hand" say="noted" />
          ) : (
            <Button
              as="word"
              small
              onPress={() => onChoose(payment)}
              label={`This one: ${payment.calls}, for the payment of ${dayInWords(payment.day)}`}
            >
              this one
            </Button>
          )}
        </li>
      ))}
    </ul>
  );
}

function Before({ invoice }: { readonly invoice: InvoiceRow }) {
  if (invoice.waivers.length === 0) return null;
  return (
    <ul className="costs-before">
      {invoice.waivers.map(({ waiver, kind, by, day, exceptions, edition }) => (
        <li key={waiver}>
          {kind}, {by}, {dayInWords(day)}
          {exceptions === undefined ? '' : `; leaves out: ${exceptions}`}{' '}
          {edition === undefined ? null : (
            <>
              <a href={addressOf('papers', edition, edition)}>the form</a>{' '}
            </>
          )}
          <Button
            as="word"
            small
            onPress={() =>
              void perform('remove-cost', { what: 'waiver', row: waiver }, { say: 'Took the waiver away.' })
            }
          >
            take away
          </Button>
        </li>
      ))}
    </ul>
  );
}

export interface WaiverSlipProps {
  readonly costs: CostsAnswer;
  readonly invoice: InvoiceRow;
  /** The payment it goes with. */
  readonly payment?: string | undefined;
  readonly onClose: () => void;
}

/** A signed waiver that came in: which of the four kinds, whose, through which day. */
export function WaiverSlip({ costs, invoice, payment, onClose }: WaiverSlipProps) {
  const today = useDay();
  const paid = invoice.payments.find((each) => each.payment === payment);
  const [kind, setKind] = useState<WaiverKind>(() => usualKind(invoice, paid));
  const [by, setBy] = useState('payee');
  const [day, setDay] = useState<Day | undefined>(today);
  const [through, setThrough] = useState<Day | undefined>(invoice.day);
  const [amount, setAmount] = useState(typedSum(paid?.amount ?? invoice.amount - invoice.held));
  const [edition, setEdition] = useState<string>();
  const [exceptions, setExceptions] = useState('');
  const suppliers = costs.notices.filter(({ subject }) => subject === invoice.subject);
  const keep = async (): Promise<void> => {
    const waiver = { invoice: invoice.invoice, kind, ...(by === 'payee' ? {} : { notice: by }) };
    const more = filled({ day, through, amount: said(amount), exceptions: said(exceptions), edition });
    const reply = await perform('waiver', { ...waiver, ...more }, { say: `Noted the waiver, ${kind}.` });
    if (reply.ok) onClose();
  };
  return (
    <Slip
      title={`Waiver for the invoice of ${invoice.payee}`}
      open
      onClose={onClose}
      foot={
        <Button as="stamp" onPress={() => void keep()}>
          Note it
        </Button>
      }
    >
      <Before invoice={invoice} />
      <ByPayment
        invoice={invoice}
        onChoose={(one) => {
          if (one.calls !== undefined) setKind(one.calls);
          setAmount(typedSum(one.amount));
        }}
      />
      <Choices
        label="Kind, as its heading says"
        options={waiverKinds.map((id) => ({ id, title: id }))}
        value={kind}
        onChange={(id) => isKind(id) && setKind(id)}
      />
      <p className="small">{kindSays[kind]}</p>
      {suppliers.length === 0 ? null : (
        <Choices
          label="Signed by"
          options={[
            { id: 'payee', title: invoice.payee },
            ...suppliers.map(({ notice, supplier }) => ({ id: notice, title: supplier })),
          ]}
          value={by}
          onChange={setBy}
        />
      )}
      <div className="costs-pair">
        <DayField label="Signed on" value={day} onChange={setDay} />
        <DayField label="Through" value={through} onChange={setThrough} hint="The last day it covers." />
        <Field label="Amount, in dollars" value={amount} onChange={setAmount} />
      </div>
      <Field label="What it leaves out, if anything" value={exceptions} onChange={setExceptions} />
      <PaperPick
        label="The signed form, where it is kept"
        value={edition}
        onChange={setEdition}
        first={/waiver|release|lien/i}
      />
      <p className="small pencil">
        The words of a waiver are your state’s: use its own form. An unconditional one gives the right up whether or not
        the money came; ask for it only once it has.
      </p>
    </Slip>
  );
}
