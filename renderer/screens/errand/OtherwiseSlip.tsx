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
import { asWritten, hintFor, ruleValue } from './rule-value.ts';

interface RuleRowProps {
  readonly row: AmendableRow;
  /** Its basis stands above already. */
  readonly bare: boolean;
  readonly onPick: () => void;
}

function RuleRow({ row, bare, onPick }: RuleRowProps) {
  return (
    <li>
      <p>
        {row.say} {bare ? null : <span className="pencil small">{row.basis}</span>}
      </p>
      <Button small onPress={onPick} label={`Change: ${row.group}, ${row.label}`}>
        Change
      </Button>
    </li>
  );
}

interface RuleGroupProps {
  readonly group: string;
  readonly rows: readonly AmendableRow[];
  readonly open: boolean;
  readonly onPick: (rule: string) => void;
}

function RuleGroup({ group, rows, open, onPick }: RuleGroupProps) {
  const [basis, ...others] = [...new Set(rows.map((row) => row.basis))];
  const one = others.length === 0;
  return (
    <details className="errand-rules" open={open}>
      <summary>
        <strong>{group}</strong> {one ? <span className="pencil small">{basis}</span> : null}
      </summary>
      <ul>
        {rows.map((row) => (
          <RuleRow key={row.rule} row={row} bare={one} onPick={() => onPick(row.rule)} />
        ))}
      </ul>
    </details>
  );
}

interface RulesProps {
  readonly rows: readonly AmendableRow[];
  /** The need it was asked from. */
  readonly about: string | undefined;
  readonly onPick: (rule: string) => void;
}

/** Rules by what they are about; first only those of the need it was asked from. */
function Rules({ rows, about, onPick }: RulesProps) {
  const near = about === undefined ? [] : rows.filter(({ rule }) => rule.includes(`.needs.${about}.`));
  const [all, showAll] = useState(near.length === 0);
  const shown = all ? rows : near;
  return (
    <>
      <p>Which rule did the office put otherwise?</p>
      <div>
        {[...Map.groupBy(shown, ({ group }) => group)].map(([group, some], at) => (
          <RuleGroup key={group} group={group} rows={some} open={!all || at === 0} onPick={onPick} />
        ))}
      </div>
      {all ? null : (
        <p>
          <Button as="word" onPress={() => showAll(true)}>
            All rules of this errand
          </Button>
        </p>
      )}
    </>
  );
}

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

function Amended({ row }: { readonly row: AmendableRow | undefined }) {
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
  const [done, setDone] = useState(false);
  const row = [...(amendable.answer?.rows ?? []), ...ofOffice].find(({ rule }) => rule === picked);
  const another = (): void => {
    pick(undefined);
    setDone(false);
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
            {done ? (
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
            done ? (
              <Amended row={row} />
            ) : row === undefined ? (
              <Rules rows={[...rows, ...ofOffice]} about={about} onPick={pick} />
            ) : (
              <Amend row={row} onDone={() => setDone(true)} />
            )
          }
        </Answered>
        {done || picked === undefined ? null : (
          <p className="small pencil">
            It will stand as said by the person you name, {dayInWords(sight.answer.reading.day)} or the day you give;
            what was published before stays on file.
          </p>
        )}
      </div>
    </Slip>
  );
}
