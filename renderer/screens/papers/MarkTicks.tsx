import { useState } from 'react';
import { Button } from '../../kit/Button.tsx';
import { Field } from '../../kit/Field.tsx';
import { Tick } from '../../kit/Tick.tsx';
import './facts.css';

export interface MarkTicksProps {
  /** Marks some errand asks for on this kind. */
  readonly asked: readonly string[];
  readonly marks: readonly string[];
  readonly onMarks: (marks: readonly string[]) => void;
}

/** What the paper bears: those an office asks for first, and any other one noted. */
export function MarkTicks({ asked, marks, onMarks }: MarkTicksProps) {
  const [other, setOther] = useState('');
  const shown = [...asked, ...marks.filter((mark) => !asked.includes(mark))];
  const add = (): void => {
    const mark = other.trim();
    if (mark !== '' && !marks.includes(mark)) onMarks([...marks, mark]);
    setOther('');
  };
  return (
    <fieldset className="mark-ticks">
      <legend className="small pencil">
        {shown.length === 0 ? 'Marks' : 'Tick what it bears, looking at the sheet'}
      </legend>
      {shown.map((mark) => (
        <Tick
          key={mark}
          checked={marks.includes(mark)}
          onChange={(on) => onMarks(on ? [...marks, mark] : marks.filter((each) => each !== mark))}
        >
          {mark}
        </Tick>
      ))}
      <div className="mark-other">
        <Field
          label={shown.length === 0 ? 'A mark it bears: signed, notarised ...' : 'Another mark'}
          value={other}
          onChange={setOther}
        />
        <Button small disabled={other.trim() === ''} onPress={add}>
          Add mark
        </Button>
      </div>
    </fieldset>
  );
}
