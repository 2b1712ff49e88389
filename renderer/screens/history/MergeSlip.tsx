import { useState } from 'react';
import type { MergeConflict } from '../../../core/desk/contract/written-answers.ts';
import { Button } from '../../kit/Button.tsx';
import { Choices } from '../../kit/Choices.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { type Looked, type Sides, takeOver } from './take-over.ts';

const sides = [
  { id: 'mine', title: 'Keep mine' },
  { id: 'theirs', title: 'Take theirs' },
] as const;

interface ConflictProps {
  readonly conflict: MergeConflict;
  readonly chosen: 'mine' | 'theirs' | undefined;
  readonly onChoose: (side: 'mine' | 'theirs') => void;
}

/** One row changed on both sides: both states, and which one stands. */
function Conflict({ conflict, chosen, onChoose }: ConflictProps) {
  const { what, mine, theirs } = conflict;
  return (
    <li>
      <h3>{what}</h3>
      <dl>
        <div>
          <dt>Here</dt>
          <dd>{mine}</dd>
        </div>
        <div>
          <dt>In the bundle</dt>
          <dd>{theirs}</dd>
        </div>
      </dl>
      <Choices
        label={`Which one stands: ${what}`}
        labelUnseen
        options={sides}
        value={chosen}
        onChange={(id) => onChoose(id === 'theirs' ? 'theirs' : 'mine')}
      />
    </li>
  );
}

/** What a bundle would bring, and what waits for a choice. Nothing comes over before that. */
export function MergeSlip({ looked, onClose }: { readonly looked: Looked; readonly onClose: () => void }) {
  const [chosen, setChosen] = useState<Sides>({});
  const { taken, conflicts, notes } = looked.answer;
  const open = conflicts.filter(({ key }) => chosen[key] === undefined).length;
  const nothing = taken.length === 0 && conflicts.length === 0;
  const go = async (): Promise<void> => {
    if (await takeOver(looked, chosen)) onClose();
  };
  return (
    <Slip
      title="From the bundle"
      open
      wide
      onClose={onClose}
      foot={
        nothing ? null : (
          <Button as="stamp" disabled={open > 0} onPress={() => void go()}>
            {open > 0 ? `Choose ${open} more first` : 'Take over'}
          </Button>
        )
      }
    >
      <p>{nothing ? 'Nothing in it is new here.' : 'It is one act: taking it back brings all of it back.'}</p>
      {taken.length === 0 ? null : (
        <ul className="history-taken">
          {taken.map((one) => (
            <li key={one}>{one}</li>
          ))}
        </ul>
      )}
      {conflicts.length === 0 ? null : (
        <ol className="history-conflicts">
          {conflicts.map((conflict) => (
            <Conflict
              key={conflict.key}
              conflict={conflict}
              chosen={chosen[conflict.key]}
              onChoose={(side) => setChosen({ ...chosen, [conflict.key]: side })}
            />
          ))}
        </ol>
      )}
      {notes.map((note) => (
        <p key={note} className="small">
          {note}
        </p>
      ))}
    </Slip>
  );
}
