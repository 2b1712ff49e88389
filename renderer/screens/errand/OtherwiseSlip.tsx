import { useState } from 'react';
import type { AmendableRow } from '../../../core/desk/contract/screen-answers.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { AmendForm } from '../../kit/AmendForm.tsx';
import { Answered } from '../../kit/Answered.tsx';
import { Button } from '../../kit/Button.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { useAnswer } from '../../state/asked.ts';
import type { Sight } from './errand-model.ts';
import { lay, putAway } from './errand-store.ts';
import { Rules } from './Rules.tsx';

interface AmendedProps {
  readonly row: AmendableRow | undefined;
  /** As it stood before; until the rules are read anew it is still the one at hand. */
  readonly before: AmendableRow;
}

function Amended({ row, before }: AmendedProps) {
  if (row === before) return <p className="waiting">Noted. Reading the rules anew ...</p>;
  if (row === undefined) return <p>Noted. The errand is read anew by it.</p>;
  return (
    <div className="errand-amended" role="status">
      <p>
        <strong>{row.say}</strong>
      </p>
      <p>Who says so: {row.basis}.</p>
      <p className="pencil">
        The errand is read anew by it. You find it under Local practice, and can take it back there.
      </p>
    </div>
  );
}

/** "The office said otherwise": pick a rule of this errand, say what, who and when. */
export function OtherwiseSlip({ sight, about }: { readonly sight: Sight; readonly about: string | undefined }) {
  const amendable = useAnswer('amendable', { errand: sight.target.errand });
  const ofOffice = useAnswer('amendable', { office: sight.answer.office.id }).answer?.rows ?? [];
  const [picked, pick] = useState<string>();
  const [done, setDone] = useState<AmendableRow>();
  const row = [...(amendable.answer?.rows ?? []), ...ofOffice].find(({ rule }) => rule === picked);
  const another = (): void => {
    pick(undefined);
    setDone(undefined);
  };
  return (
    <Slip
      title="The office said otherwise"
      open
      wide
      onClose={putAway}
      foot={
        picked === undefined ? (
          <Button onPress={() => lay({ slip: 'another paper' })}>They want another paper too</Button>
        ) : (
          <>
            {done !== undefined ? (
              <Button as="stamp" onPress={putAway}>
                Done
              </Button>
            ) : null}
            <Button onPress={another}>Another rule</Button>
          </>
        )
      }
    >
      <div className="errand-slip">
        <Answered of={amendable}>
          {({ rows }) =>
            done !== undefined ? (
              <Amended row={row} before={done} />
            ) : row === undefined ? (
              <Rules rows={[...rows, ...ofOffice]} about={about} onPick={pick} />
            ) : (
              <AmendForm row={row} onDone={() => setDone(row)} />
            )
          }
        </Answered>
        {done !== undefined || picked === undefined ? null : (
          <p className="small pencil">
            It will stand as said by the person you name, {dayInWords(sight.answer.reading.day)} or the day you give;
            what was published before stays on file.
          </p>
        )}
      </div>
    </Slip>
  );
}
