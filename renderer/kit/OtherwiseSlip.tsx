import { useState } from 'react';
import type { AmendableRow } from '../../core/desk/contract/screen-answers.ts';
import type { Day } from '../../core/vocabulary/days.ts';
import type { ErrorShape } from '../../core/vocabulary/errors.ts';
import { perform } from '../state/doing.ts';
import { useDay } from '../state/session.ts';
import { Button } from './Button.tsx';
import { Choices } from './Choices.tsx';
import { DayField } from './DayField.tsx';
import { Field } from './Field.tsx';
import { Slip } from './Slip.tsx';
import { Trouble } from './Trouble.tsx';

type Value = string | number | boolean | string[];

function shown(value: AmendableRow['value']): string {
  if (value === undefined) return '';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'object' ? value.join(', ') : String(value);
}

/** What was typed, as `clerk-said` takes it for this sort of rule. */
function valueSaid({ sort }: AmendableRow, text: string): Value {
  const said = text.trim();
  switch (sort) {
    case 'count':
      return Number(said);
    case 'yes or no':
      return said === 'yes';
    case 'list':
      return said.split(',').flatMap((part) => (part.trim() === '' ? [] : [part.trim()]));
    case 'money':
      return /^[\d.,\s$]+$/.test(said) ? `${said.replace('$', '').trim()} usd` : said;
    case 'words':
    case 'days':
    case 'size':
    case 'choice':
      return said;
  }
}

const hints: Partial<Readonly<Record<AmendableRow['sort'], string>>> = {
  count: 'A whole number.',
  money: 'An amount, such as 240.',
  days: 'Such as 30 days, or 10 to 20 working days.',
  list: 'Several, with commas between.',
  size: 'Such as 20 MB.',
};

function NewValue({
  row,
  text,
  onChange,
}: {
  readonly row: AmendableRow;
  readonly text: string;
  readonly onChange: (text: string) => void;
}) {
  const options = row.sort === 'yes or no' ? ['yes', 'no'] : (row.choices ?? []);
  if (options.length > 0 && options.length < 8) {
    return (
      <Choices
        label={`${row.label}: what they said`}
        options={options.map((id) => ({ id, title: id }))}
        value={text}
        onChange={onChange}
      />
    );
  }
  return (
    <Field label={`${row.label}: what they said`} value={text} onChange={onChange} hint={hints[row.sort]} autoFocus />
  );
}

export interface OtherwiseSlipProps {
  readonly row: AmendableRow;
  readonly onClose: () => void;
}

/** "The office said otherwise": one rule amended on the word of a named person, on a day. */
export function OtherwiseSlip({ row, onClose }: OtherwiseSlipProps) {
  const today = useDay();
  const [text, setText] = useState(shown(row.value));
  const [who, setWho] = useState('');
  const [day, setDay] = useState<Day | undefined>(today);
  const [note, setNote] = useState('');
  const [error, setError] = useState<ErrorShape>();
  const amend = async (): Promise<void> => {
    const said = { rule: row.rule, value: valueSaid(row, text), who: who.trim(), day };
    const argument = note.trim() === '' ? said : { ...said, note: note.trim() };
    const reply = await perform('clerk-said', argument, { say: `Noted on the word of ${who.trim()}.`, quiet: true });
    if (reply.ok) onClose();
    else setError(reply.error);
  };
  return (
    <Slip
      title="The office said otherwise"
      open
      onClose={onClose}
      foot={
        <Button as="stamp" disabled={who.trim() === '' || text.trim() === ''} onPress={() => void amend()}>
          Note it
        </Button>
      }
    >
      <p>
        {row.group}: {row.say} <span className="pencil">({row.basis})</span>
      </p>
      <NewValue row={row} text={text} onChange={setText} />
      <Field label="Who said so" value={who} onChange={setWho} placeholder="name and desk" required />
      <DayField label="On which day" value={day} onChange={setDay} />
      <Field label="In their words, if you like" value={note} onChange={setNote} lines />
      {error === undefined ? null : <Trouble error={error} />}
      <p className="small pencil">
        From now on this rule stands on that word, here and on every sheet, and can be taken back.
      </p>
    </Slip>
  );
}
