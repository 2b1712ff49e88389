import { useState } from 'react';
import type { CostsAnswer, InvoiceRow } from '../../../core/desk/contract/cost-answers.ts';
import { type WaiverKind, waiverKinds } from '../../../core/vocabulary/costs.ts';
import { type Day, dayInWords } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { Choices } from '../../kit/Choices.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { perform } from '../../state/doing.ts';
import { useDay } from '../../state/session.ts';
import { filled, said, typedSum } from './sums.ts';

function isKind(text: string): text is WaiverKind {
  return waiverKinds.some((kind) => kind === text);
}

/** Before the money a conditional one, after it the unconditional. */
function usualKind({ amount, held, paid }: InvoiceRow): WaiverKind {
  return paid >= amount - held ? 'unconditional progress' : 'conditional progress';
}

function Before({ invoice }: { readonly invoice: InvoiceRow }) {
  if (invoice.waivers.length === 0) return null;
  return (
    <ul className="costs-before">
      {invoice.waivers.map(({ waiver, kind, by, day, exceptions }) => (
        <li key={waiver}>
          {kind}, {by}, {dayInWords(day)}
          {exceptions === undefined ? '' : `; leaves out: ${exceptions}`}{' '}
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
  readonly onClose: () => void;
}

/** A signed waiver that came in: which of the four kinds, whose, through which day. */
export function WaiverSlip({ costs, invoice, onClose }: WaiverSlipProps) {
  const today = useDay();
  const [kind, setKind] = useState<WaiverKind>(() => usualKind(invoice));
  const [by, setBy] = useState('payee');
  const [day, setDay] = useState<Day | undefined>(today);
  const [through, setThrough] = useState<Day | undefined>(invoice.day);
  const [amount, setAmount] = useState(typedSum(invoice.amount - invoice.held));
  const [exceptions, setExceptions] = useState('');
  const suppliers = costs.notices.filter(({ subject }) => subject === invoice.subject);
  const keep = async (): Promise<void> => {
    const waiver = { invoice: invoice.invoice, kind, ...(by === 'payee' ? {} : { notice: by }) };
    const more = filled({ day, through, amount: said(amount), exceptions: said(exceptions) });
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
      <Choices
        label="Kind, as its heading says"
        options={waiverKinds.map((id) => ({ id, title: id }))}
        value={kind}
        onChange={(id) => isKind(id) && setKind(id)}
      />
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
      <p className="small pencil">
        The words of a waiver are your state’s: use its own form. An unconditional one gives the right up whether or not
        the money came; ask for it only once it has.
      </p>
    </Slip>
  );
}
