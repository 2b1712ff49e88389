import { useState } from 'react';
import type { Day } from '../../../core/vocabulary/days.ts';
import type { ErrorShape } from '../../../core/vocabulary/errors.ts';
import type { Subject } from '../../../core/vocabulary/lot.ts';
import { Button } from '../../kit/Button.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { Trouble } from '../../kit/Trouble.tsx';
import { perform } from '../../state/doing.ts';

interface Said {
  readonly name: string;
  readonly trade: string;
  readonly from: Day | undefined;
  readonly to: Day | undefined;
}

function note({ name, trade, from, to }: Said, firm: Subject | undefined) {
  const manner = { say: `${name}, ${trade}: ${firm === undefined ? 'noted' : 'corrected'}.`, quiet: true };
  if (firm === undefined) return perform('engage', { firm: name, trade, from, to }, manner);
  const clear = [...(from === undefined ? (['from'] as const) : []), ...(to === undefined ? (['to'] as const) : [])];
  return perform('correct-firm', { firm: firm.id, name, trade, from, to, clear }, manner);
}

/** A firm on the job, noted or corrected; one that never was on it is removed. */
export function FirmSlip({ firm, onClose }: { readonly firm?: Subject | undefined; readonly onClose: () => void }) {
  const [name, setName] = useState(firm?.firm ?? firm?.title ?? '');
  const [trade, setTrade] = useState(firm?.trade ?? '');
  const [from, setFrom] = useState<Day | undefined>(firm?.from);
  const [to, setTo] = useState<Day | undefined>(firm?.to);
  const [error, setError] = useState<ErrorShape>();
  const ready = name.trim() !== '' && trade.trim() !== '';
  const act = async (): Promise<void> => {
    if (!ready) return;
    const reply = await note({ name: name.trim(), trade: trade.trim(), from, to }, firm);
    if (reply.ok) onClose();
    else setError(reply.error);
  };
  const remove = async (id: string): Promise<void> => {
    const reply = await perform('remove-firm', { firm: id }, { say: `${name}: removed from the job.`, quiet: true });
    if (reply.ok) onClose();
    else setError(reply.error);
  };
  return (
    <Slip
      title={firm === undefined ? 'A firm on the job' : `Correct: ${firm.firm ?? firm.title}`}
      open
      onClose={onClose}
    >
      <form
        className="lot-form"
        onSubmit={(event) => {
          event.preventDefault();
          void act();
        }}
      >
        <Field label="Firm, as on its licence" value={name} onChange={setName} autoFocus />
        <Field label="Trade" value={trade} onChange={setTrade} placeholder="for example: electrical" />
        <div className="pair">
          <DayField label="First day on site" value={from} onChange={setFrom} />
          <DayField label="Last day, if known" value={to} onChange={setTo} />
        </div>
        <p className="small pencil">
          Its licence and certificates are asked for on each of these days. A certificate of insurance is not cover: ask
          the insurer when in doubt.
        </p>
        {error === undefined ? null : <Trouble error={error} />}
        <div className="lot-foot">
          <Button as="stamp" submit disabled={!ready}>
            {firm === undefined ? 'Note the firm' : 'Note it so'}
          </Button>
          {firm === undefined ? null : (
            <Button as="word" onPress={() => void remove(firm.id)}>
              remove: it was never on this job
            </Button>
          )}
        </div>
      </form>
    </Slip>
  );
}
