import { useState } from 'react';
import type { CostsAnswer, InvoiceRow } from '../../../core/desk/contract/cost-answers.ts';
import type { Day } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { PaperPick } from '../../kit/PaperPick.tsx';
import { Pick } from '../../kit/Pick.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { perform } from '../../state/doing.ts';
import { useDay } from '../../state/session.ts';
import { filled, said, typedSum } from './sums.ts';

export interface InvoiceSlipProps {
  readonly costs: CostsAnswer;
  readonly row: InvoiceRow | undefined;
  readonly onClose: () => void;
}

/** An invoice or receipt on a line. */
export function InvoiceSlip({ costs, row, onClose }: InvoiceSlipProps) {
  const today = useDay();
  const [line, setLine] = useState(row?.line);
  const [payee, setPayee] = useState(row?.payee ?? '');
  const [number, setNumber] = useState(row?.number ?? '');
  const [amount, setAmount] = useState(typedSum(row?.amount));
  const [held, setHeld] = useState(typedSum(row?.held));
  const [day, setDay] = useState<Day | undefined>(row?.day ?? today);
  const [edition, setEdition] = useState(row?.edition);
  const choose = (id: string): void => {
    setLine(id);
    const firm = costs.rows.find((each) => each.line === id)?.firm;
    if (payee === '' && firm !== undefined) setPayee(firm);
  };
  const keep = async (): Promise<void> => {
    const invoice = filled({ row: row?.invoice, line, payee: said(payee), number: said(number), day });
    const sums = filled({ amount: said(amount), held: said(held), edition });
    const reply = await perform('invoice', { ...invoice, ...sums }, { say: `Noted the invoice of ${payee.trim()}.` });
    if (reply.ok) onClose();
  };
  return (
    <Slip
      title={row === undefined ? 'An invoice' : `Invoice of ${row.payee}`}
      open
      onClose={onClose}
      foot={
        <Button
          as="stamp"
          disabled={line === undefined || payee.trim() === '' || amount.trim() === ''}
          onPress={() => void keep()}
        >
          Note it
        </Button>
      }
    >
      <Pick
        label="For which line"
        options={costs.rows.map(({ line: id, title }) => ({ id, title }))}
        value={line}
        onChange={choose}
      />
      <div className="costs-pair">
        <Field label="Payee, as printed" value={payee} onChange={setPayee} />
        <Field label="Number" value={number} onChange={setNumber} />
      </div>
      <div className="costs-pair">
        <Field label="Amount, in dollars" value={amount} onChange={setAmount} />
        <Field label="You hold back" value={held} onChange={setHeld} hint="Until the end, where you agreed so." />
        <DayField label="Dated" value={day} onChange={setDay} />
      </div>
      <PaperPick
        label="The invoice or receipt itself, where it is kept"
        value={edition}
        onChange={setEdition}
        first={/invoice|receipt|bill/i}
      />
    </Slip>
  );
}
