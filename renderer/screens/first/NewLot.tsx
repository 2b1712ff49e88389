import { useState } from 'react';
import type { Day } from '../../../core/vocabulary/days.ts';
import type { ErrorShape } from '../../../core/vocabulary/errors.ts';
import { port } from '../../client/port.ts';
import { Button } from '../../kit/Button.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { Trouble } from '../../kit/Trouble.tsx';
import { Where } from '../../kit/Where.tsx';
import { nowIn } from '../../state/lot.ts';
import { useLot } from '../../state/session.ts';

/** Makes the folder and the lot in it, then goes to its boxes; an error comes back to be shown in place. */
async function beginLot(title: string, target: Day | undefined): Promise<ErrorShape | undefined> {
  const made = await port.act('make-folder', { title });
  if (!made.ok) return made.error;
  const { folder } = made.answer;
  const reply = await port.ask('new-lot', { folder, title, target }, {});
  if (!reply.ok) return reply.error;
  await nowIn({ ...reply.answer, folder }, { screen: 'lot' });
  return undefined;
}

export function NewLot() {
  const host = useLot((state) => state.host);
  const [title, setTitle] = useState('');
  const [target, setTarget] = useState<Day>();
  const [wrong, setWrong] = useState<string>();
  const [error, setError] = useState<ErrorShape>();
  const [busy, setBusy] = useState(false);
  const begin = async (): Promise<void> => {
    if (title.trim() === '') {
      setWrong('Give the lot a name you will know it by.');
      return;
    }
    setBusy(true);
    setError(await beginLot(title.trim(), target));
    setBusy(false);
  };
  return (
    <form
      className="first-new"
      onSubmit={(event) => {
        event.preventDefault();
        void begin();
      }}
    >
      <h2>Begin a new lot</h2>
      <div className="pair">
        <Field
          label="What do you call it?"
          value={title}
          onChange={(now) => {
            setTitle(now);
            setWrong(undefined);
          }}
          placeholder="for example: Heron Lane"
          wrong={wrong}
        />
        <DayField label="Move in by (if you know)" value={target} onChange={setTarget} />
      </div>
      {error === undefined ? null : <Trouble error={error} />}
      <div className="end">
        <Button as="stamp" submit disabled={busy}>
          {busy ? 'Beginning ...' : 'Begin'}
        </Button>
        {host === undefined ? null : (
          <p className="small pencil">
            Its folder goes into {host.newLotsGoTo}: <Where place={host.newLotsFolder} />
          </p>
        )}
      </div>
    </form>
  );
}
