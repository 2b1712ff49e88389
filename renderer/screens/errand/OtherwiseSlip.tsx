import { useState } from 'react';
import type { AmendableRow } from '../../../core/desk/contract/screen-answers.ts';
import { type Day, dayInWords } from '../../../core/vocabulary/days.ts';
import type { ErrorShape } from '../../../core/vocabulary/errors.ts';
import { Answered } from '../../kit/Answered.tsx';
import { Button } from '../../kit/Button.tsx';
import { Choices } from '../../kit/Choices.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { Trouble } from '../../kit/Trouble.tsx';
import { useAnswer } from '../../state/asked.ts';
import { perform } from '../../state/doing.ts';
import { useDay } from '../../state/session.ts';
import type { Sight } from './errand-model.ts';
import { putAway } from './errand-store.ts';
import { Rules } from './Rules.tsx';
import { asWritten, hintFor, ruleValue } from './rule-value.ts';

interface ValueProps {
  readonly row: AmendableRow;
  readonly text: string;
  readonly onText: (text: string) => void;
}

function ValueField({ row, text, onText }: ValueProps) {
  const choices = row.sort === 'yes or no' ? ['yes', 'no'] : row.choices;
  if (choices !== undefined && row.sort !== 'list') {
    const options = choices.map((id) => ({ id, title: id }));
    return <Choices label={row.label} options={options} value={text} onChange={onText} />;
  }
  return (
    <Field
      label={row.label}
      value={text}
      onChange={onText}
      hint={hintFor(row.sort)}
      lines={row.sort === 'list'}
      autoFocus
    />
  );
}

function Amend({ row, onDone }: { readonly row: AmendableRow; readonly onDone: () => void }) {
  const today = useDay();
  const [text, setText] = useState(asWritten(row.value));
  const [who, setWho] = useState('');
  const [day, setDay] = useState<Day | undefined>(today);
  const [note, setNote] = useState('');
  const [trouble, setTrouble] = useState<ErrorShape>();
  const value = ruleValue(row, text);
  const ready = value !== undefined && who.trim() !== '' && day !== undefined;
  const act = async (): Promise<void> => {
    if (!ready) return;
    const said = note.trim() === '' ? {} : { note: note.trim() };
    const argument = { rule: row.rule, value, who: who.trim(), day, ...said };
    const manner = { say: `Noted what ${who.trim()} said: ${row.group}, ${row.label}.`, quiet: true };
    const reply = await perform('clerk-said', argument, manner);
    if (reply.ok) onDone();
    else setTrouble(reply.error);
  };
  return (
    <form
      className="errand-form"
      onSubmit={(event) => {
        event.preventDefault();
        void act();
      }}
    >
      <p>
        So far: {row.say} <span className="pencil">({row.basis})</span>
      </p>
      <ValueField row={row} text={text} onText={setText} />
      <div className="errand-pair">
        <Field label="Who said so" value={who} onChange={setWho} required placeholder="name at the desk" />
        <DayField label="On" value={day} onChange={setDay} />
      </div>
      <Field label="In their words (if you like)" value={note} onChange={setNote} lines />
      {trouble === undefined ? null : <Trouble error={trouble} />}
      <div className="errand-row">
        <Button as="stamp" submit disabled={!ready}>
          Note what they said
        </Button>
      </div>
    </form>
  );
}

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
        picked === undefined ? undefined : (
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
              <Amend row={row} onDone={() => setDone(row)} />
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
