import type { RequestArgument } from '../../../core/desk/contract/requests.ts';
import type { Day } from '../../../core/vocabulary/days.ts';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';

/** What may be said of photos and receipts; empty where nothing is. */
export interface Said {
  readonly title: string;
  readonly day: Day | undefined;
  readonly place: string;
  readonly wall: string;
  readonly trade: string;
  readonly amount: string;
  readonly text: string;
}

export const unsaid: Said = { title: '', day: undefined, place: '', wall: '', trade: '', amount: '', text: '' };

function filled(text: string): string | undefined {
  return text.trim() === '' ? undefined : text.trim();
}

/** As the desk takes it: what is empty is not said. */
export function asSaid(said: Said): Omit<RequestArgument<'correct-records'>, 'records' | 'clear'> {
  const { title, day, place, wall, trade, amount, text } = said;
  return {
    title: filled(title),
    day,
    place: filled(place),
    wall: filled(wall),
    trade: filled(trade),
    amount: filled(amount),
    text: filled(text),
  };
}

export interface RecordFieldsProps {
  readonly said: Said;
  readonly onSaid: (said: Said) => void;
  /** Also asked for: an amount, words beside it. */
  readonly money: boolean;
  readonly words: boolean;
  readonly dayHint?: string | undefined;
}

export function RecordFields({ said, onSaid, money, words, dayHint }: RecordFieldsProps) {
  const set = (change: Partial<Said>): void => onSaid({ ...said, ...change });
  return (
    <div className="records-fields">
      <Field label="Place" value={said.place} onChange={(place) => set({ place })} placeholder="Bath, upstairs" />
      <Field label="Wall or side" value={said.wall} onChange={(wall) => set({ wall })} placeholder="behind the tub" />
      <Field label="Trade" value={said.trade} onChange={(trade) => set({ trade })} placeholder="plumbing" />
      {money ? (
        <Field
          label="Amount"
          value={said.amount}
          onChange={(amount) => set({ amount })}
          hint="dollars, such as 48.50"
        />
      ) : null}
      <Field label="Title" value={said.title} onChange={(title) => set({ title })} />
      <DayField label="Day" value={said.day} onChange={(day) => set({ day })} hint={dayHint} />
      {words ? <Field label="Words beside it" value={said.text} onChange={(text) => set({ text })} lines /> : null}
    </div>
  );
}
