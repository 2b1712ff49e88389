import type { Day } from '../../core/vocabulary/days.ts';
import { DayField } from './DayField.tsx';
import { Field } from './Field.tsx';

/** Who of an office said something, when, and in which words. */
export interface TheirWord {
  readonly who: string;
  readonly day: Day | undefined;
  readonly note: string;
}

interface WordProps {
  readonly said: TheirWord;
  readonly onSaid: (change: Partial<TheirWord>) => void;
}

/** What is noted of every word an office gives: a name and a day stand for it. */
export function OnTheirWord({ said: { who, day, note }, onSaid }: WordProps) {
  return (
    <>
      <div className="amend-pair">
        <Field
          label="Who said so"
          value={who}
          onChange={(now) => onSaid({ who: now })}
          required
          placeholder="name at the desk"
        />
        <DayField label="On" value={day} onChange={(now) => onSaid({ day: now })} />
      </div>
      <Field label="In their words (if you like)" value={note} onChange={(now) => onSaid({ note: now })} lines />
    </>
  );
}
