import { useState } from 'react';
import type { LotCard } from '../../../core/desk/contract/answers.ts';
import { type Day, dayWithWeekday } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { LastBackup } from '../../kit/LastBackup.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { perform } from '../../state/doing.ts';
import { addressOf } from '../../state/place.ts';

function EditHead({ card, onClose }: { readonly card: LotCard; readonly onClose: () => void }) {
  const [title, setTitle] = useState(card.title);
  const [target, setTarget] = useState<Day | undefined>(card.target);
  const save = async (): Promise<void> => {
    const wanted = title.trim();
    if (wanted !== '' && wanted !== card.title) {
      const reply = await perform('rename-lot', { title: wanted }, { say: `The lot is now called ${wanted}.` });
      if (!reply.ok) return;
    }
    if (target !== undefined && target !== card.target) {
      const reply = await perform('target', { day: target }, { say: `Move in by ${dayWithWeekday(target)}.` });
      if (!reply.ok) return;
    }
    onClose();
  };
  return (
    <Slip
      title="Name and target day"
      open
      onClose={onClose}
      foot={
        <Button as="stamp" onPress={() => void save()}>
          Note it
        </Button>
      }
    >
      <Field label="What do you call the lot?" value={title} onChange={setTitle} />
      <DayField
        label="Move in by"
        value={target}
        onChange={setTarget}
        hint="The way counts back from this day and says how many days there are to spare."
      />
    </Slip>
  );
}

export function LotHead({ card }: { readonly card: LotCard }) {
  const [editing, setEditing] = useState(false);
  return (
    <header>
      <div>
        <h1>{card.title}</h1>
        <p className="lead">
          {card.target === undefined ? 'No day to move in by yet.' : `Move in by ${dayWithWeekday(card.target)}.`}{' '}
          <Button as="word" small onPress={() => setEditing(true)}>
            change name or day
          </Button>
        </p>
        <p className="small pencil">
          <LastBackup backup={card.backup} /> <a href={addressOf('history')}>back up</a>
        </p>
      </div>
      {editing ? <EditHead card={card} onClose={() => setEditing(false)} /> : null}
    </header>
  );
}
