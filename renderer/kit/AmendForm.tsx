import { useState } from 'react';
import type { AmendableRow, EffectAnswer } from '../../core/desk/contract/screen-answers.ts';
import type { ErrorShape } from '../../core/vocabulary/errors.ts';
import { ask, perform } from '../state/doing.ts';
import { useDay } from '../state/session.ts';
import { Button } from './Button.tsx';
import { Choices } from './Choices.tsx';
import { EffectList } from './EffectList.tsx';
import { Field } from './Field.tsx';
import { OnTheirWord, type TheirWord } from './OnTheirWord.tsx';
import { asWritten, hintFor, ruleValue } from './rule-value.ts';
import { Trouble } from './Trouble.tsx';

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

/** One rule, what they said of it, who and when; an error stands in place and what was typed stays. */
export function AmendForm({ row, onDone }: { readonly row: AmendableRow; readonly onDone: () => void }) {
  const today = useDay();
  const [text, setText] = useState(asWritten(row.value));
  const [word, setWord] = useState<TheirWord>({ who: '', day: today, note: '' });
  const { who, day, note } = word;
  const [trouble, setTrouble] = useState<ErrorShape>();
  const [effect, setEffect] = useState<EffectAnswer>();
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
  const look = async (): Promise<void> => {
    if (value === undefined) return;
    const reply = await ask('practice-effect', { rule: row.rule, value });
    setEffect(reply.ok ? reply.answer : undefined);
    setTrouble(reply.ok ? undefined : reply.error);
  };
  return (
    <form
      className="amend-form"
      onSubmit={(event) => {
        event.preventDefault();
        void act();
      }}
    >
      <p>
        So far: {row.say} <span className="pencil">({row.basis})</span>
      </p>
      <ValueField
        row={row}
        text={text}
        onText={(now) => {
          setText(now);
          setEffect(undefined);
        }}
      />
      {value === undefined || text === asWritten(row.value) ? null : (
        <div>
          <Button as="word" onPress={() => void look()}>
            See first what it changes on this lot
          </Button>
        </div>
      )}
      {effect === undefined ? null : <EffectList effect={effect} />}
      <OnTheirWord said={word} onSaid={(change) => setWord({ ...word, ...change })} />
      {trouble === undefined ? null : <Trouble error={trouble} />}
      <div>
        <Button as="stamp" submit disabled={!ready}>
          Note what they said
        </Button>
      </div>
    </form>
  );
}
