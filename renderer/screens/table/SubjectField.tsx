import { useState } from 'react';
import type { Day } from '../../../core/vocabulary/days.ts';
import type { Subject } from '../../../core/vocabulary/lot.ts';
import type { SubjectSort } from '../../../core/vocabulary/practice.ts';
import { Button } from '../../kit/Button.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { Pick } from '../../kit/Pick.tsx';
import { perform } from '../../state/doing.ts';

const asks: Readonly<Record<SubjectSort, string>> = {
  engagement: 'Whose is it?',
  area: 'Which part of the house?',
  draw: 'Which draw?',
};

interface NewFirmProps {
  readonly onMade: (subject: string) => void;
  readonly onLeave: () => void;
}

/** A firm on the job that isn't noted yet. */
function NewFirm({ onMade, onLeave }: NewFirmProps) {
  const [firm, setFirm] = useState('');
  const [trade, setTrade] = useState('');
  const [from, setFrom] = useState<Day>();
  const add = async (): Promise<void> => {
    const argument = { firm: firm.trim(), trade: trade.trim(), ...(from === undefined ? {} : { from }) };
    const reply = await perform('engage', argument, { say: `${argument.firm} is noted as a firm on the job.` });
    if (reply.ok) onMade(reply.answer.subject);
  };
  return (
    <div className="table-firm">
      <Field label="Firm, as printed on its papers" value={firm} onChange={setFirm} autoFocus />
      <Field label="Trade" value={trade} onChange={setTrade} placeholder="framing, electrical ..." />
      <DayField label="On site from (if you know)" value={from} onChange={setFrom} />
      <div className="table-acts">
        <Button small disabled={firm.trim() === '' || trade.trim() === ''} onPress={() => void add()}>
          Note this firm
        </Button>
        <Button as="word" small onPress={onLeave}>
          Leave it
        </Button>
      </div>
    </div>
  );
}

export interface SubjectFieldProps {
  readonly each: SubjectSort;
  readonly subjects: readonly Subject[];
  readonly subject: string | undefined;
  readonly onSubject: (subject: string) => void;
}

/** Asked only of papers that are kept once per firm, area or draw. */
export function SubjectField({ each, subjects, subject, onSubject }: SubjectFieldProps) {
  const [adding, add] = useState(false);
  const known = subjects.filter(({ sort }) => sort === each);
  const made = (id: string): void => {
    add(false);
    onSubject(id);
  };
  return (
    <div className="fact-group">
      {known.length === 0 ? null : (
        <Pick
          label={asks[each]}
          options={known.map(({ id, title }) => ({ id, title }))}
          value={subject}
          onChange={onSubject}
        />
      )}
      {each !== 'engagement' ? (
        known.length > 0 ? null : (
          <p className="small">{asks[each]} None is noted yet; keep it as something else for now.</p>
        )
      ) : adding ? (
        <NewFirm onMade={made} onLeave={() => add(false)} />
      ) : (
        <Button as="word" small onPress={() => add(true)}>
          {known.length === 0 ? 'Whose is it? Note the firm' : 'A firm that isn’t listed'}
        </Button>
      )}
    </div>
  );
}
