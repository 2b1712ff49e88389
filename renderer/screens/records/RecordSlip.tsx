import { useState } from 'react';
import type { RecordRow } from '../../../core/desk/contract/answers.ts';
import { dayWithWeekday } from '../../../core/vocabulary/days.ts';
import { moneyInWords } from '../../../core/vocabulary/money.ts';
import { port } from '../../client/port.ts';
import { Button } from '../../kit/Button.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { perform } from '../../state/doing.ts';
import { saveFile } from '../../state/saving.ts';
import { asSaid, RecordFields, type Said } from './RecordFields.tsx';

function saidOf({ title, day, place, wall, trade, amount, text }: RecordRow): Said {
  return { title, day, place, wall, trade, amount: amount === undefined ? '' : moneyInWords(amount), text };
}

const clearable = ['place', 'wall', 'trade', 'amount', 'text'] as const;

/** The photo itself where the window can show it, else its small picture. */
function Large({ record }: { readonly record: RecordRow }) {
  const [broken, breakIt] = useState(/\.pdf$/i.test(record.file));
  const ticket = broken ? record.small : record.ticket;
  if (ticket === undefined) return null;
  return <img className="records-large" src={port.address(ticket)} alt={record.title} onError={() => breakIt(true)} />;
}

export interface RecordSlipProps {
  readonly record: RecordRow;
  readonly onClose: () => void;
}

/** One record, large, with what was said of it. */
export function RecordSlip({ record, onClose }: RecordSlipProps) {
  const [said, setSaid] = useState(() => saidOf(record));
  const before = saidOf(record);
  const same = JSON.stringify(said) === JSON.stringify(before);
  const keep = async (): Promise<void> => {
    const clear = clearable.filter((field) => before[field] !== '' && said[field].trim() === '');
    const change = { records: [record.record], ...asSaid(said), clear: [...clear] };
    const reply = await perform('correct-records', change, { say: 'Corrected.' });
    if (reply.ok) onClose();
  };
  const remove = async (): Promise<void> => {
    const reply = await perform('remove-records', { records: [record.record] }, { say: 'Taken off the list.' });
    if (reply.ok) onClose();
  };
  const { ticket, file } = record;
  return (
    <Slip
      title={record.title}
      open
      wide
      onClose={onClose}
      foot={
        <div className="records-acts">
          <Button as="stamp" disabled={same || said.title.trim() === ''} onPress={() => void keep()}>
            Correct it
          </Button>
          <Button onPress={() => void remove()}>Take off the list</Button>
          {ticket === undefined ? null : (
            <Button as="word" small onPress={() => void saveFile({ ticket, name: file })}>
              Save a copy of {file}
            </Button>
          )}
        </div>
      }
    >
      <div className="records-spread">
        <Large record={record} />
        <div>
          <p className="small pencil">{dayWithWeekday(record.day)}</p>
          <RecordFields said={said} onSaid={setSaid} money={record.sort === 'receipt'} words />
        </div>
      </div>
    </Slip>
  );
}
