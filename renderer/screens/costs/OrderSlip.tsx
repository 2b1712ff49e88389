import { useState } from 'react';
import type { CostRow, CostsAnswer } from '../../../core/desk/contract/cost-answers.ts';
import type { Day } from '../../../core/vocabulary/days.ts';
import { moneyInWords } from '../../../core/vocabulary/money.ts';
import { Button } from '../../kit/Button.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { PaperPick } from '../../kit/PaperPick.tsx';
import { Pick } from '../../kit/Pick.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { Tick } from '../../kit/Tick.tsx';
import { perform } from '../../state/doing.ts';
import { useDay } from '../../state/session.ts';
import { filled, said } from './sums.ts';

export interface OrderSlipProps {
  readonly costs: CostsAnswer;
  readonly row: CostRow | undefined;
  readonly onClose: () => void;
}

/** What was agreed later: more, or less. */
export function OrderSlip({ costs, row, onClose }: OrderSlipProps) {
  const today = useDay();
  const [line, setLine] = useState(row?.line);
  const [title, setTitle] = useState('');
  const [amount, setAmount] = useState('');
  const [day, setDay] = useState<Day | undefined>(today);
  const [fromContingency, setFrom] = useState(false);
  const [edition, setEdition] = useState<string>();
  const lines = costs.rows.filter(({ sort }) => sort !== 'land');
  const keep = async (): Promise<void> => {
    const order = filled({ line, amount: said(amount), title: said(title), day, fromContingency, edition });
    const reply = await perform('change-order', order, { say: 'Noted the change order.' });
    if (reply.ok) onClose();
  };
  return (
    <Slip
      title="A change order"
      open
      onClose={onClose}
      foot={
        <Button as="stamp" disabled={line === undefined || amount.trim() === ''} onPress={() => void keep()}>
          Note it
        </Button>
      }
    >
      <Pick
        label="On which line"
        options={lines.map(({ line: id, title: name }) => ({ id, title: name }))}
        value={line}
        onChange={setLine}
      />
      <Field label="What changes" value={title} onChange={setTitle} placeholder="for example: deeper porch beam" />
      <div className="costs-pair">
        <Field
          label="More, in dollars"
          value={amount}
          onChange={setAmount}
          hint="With a minus where it costs less: -640"
        />
        <DayField label="Agreed on" value={day} onChange={setDay} />
      </div>
      <PaperPick
        label="The signed order, where it is kept"
        value={edition}
        onChange={setEdition}
        first={/change|order|agreement|contract/i}
      />
      {costs.contingency === undefined ? null : (
        <Tick checked={fromContingency} onChange={setFrom}>
          The contingency gives it ({moneyInWords(costs.contingency.left)} left)
        </Tick>
      )}
      <p className="small pencil">Signed by both before the work is done; a lender looks at it with the next draw.</p>
    </Slip>
  );
}
