import { useState } from 'react';
import type { FormAnswer, FormBoxRow } from '../../../core/desk/contract/form-answers.ts';
import type { BoxState, ValueSeat } from '../../../core/forms/form-model.ts';
import { Button } from '../../kit/Button.tsx';
import { Pick } from '../../kit/Pick.tsx';
import { Scrolled } from '../../kit/Scrolled.tsx';
import { useAnswer } from '../../state/asked.ts';
import { perform } from '../../state/doing.ts';
import { addressOf } from '../../state/place.ts';
import { QuestionForm } from '../lot/QuestionForm.tsx';
import { pointAt } from './form-view.ts';

const troubled: readonly BoxState[] = [
  'missing',
  'too long',
  'not among the choices',
  'wrong sort',
  'no such letters',
  'not on the form',
];

/** The box of the record card, here and now: nobody has to come back for it. */
function Answering({ question, onDone }: { readonly question: string; readonly onDone: () => void }) {
  const card = useAnswer('read-lot', {}).answer;
  const asked = card?.questions.find(({ id }) => id === question);
  return asked === undefined ? null : <QuestionForm question={asked} goesOn={false} onDone={onDone} />;
}

function seatLink(seat: ValueSeat): { readonly to: string; readonly say: string } | undefined {
  switch (seat.at) {
    case 'question':
    case 'names':
    case 'firms':
    case 'events':
      return { to: addressOf('lot'), say: 'on the record card' };
    case 'paper':
      return { to: addressOf('table', 'as', seat.kind), say: 'add the paper' };
    case 'practice':
      return { to: addressOf('practice'), say: 'in the local practice' };
  }
}

/** A box somebody has to look at: what is wrong, and where it is put right. */
function Troubled({ box }: { readonly box: FormBoxRow }) {
  const [open, setOpen] = useState(false);
  const { seat, state } = box;
  const question = seat?.at === 'question' && state === 'missing' ? seat.question : undefined;
  const link = seat === undefined ? undefined : seatLink(seat);
  return (
    <li className="form-box telling" {...pointAt(box.field)}>
      <p>
        <span className="form-state">{state}</span> <strong>{box.title}</strong> {box.say}{' '}
        {question === undefined ? null : (
          <Button
            as="word"
            small
            onPress={() => setOpen(!open)}
            label={`${open ? 'Fold' : 'Answer it here'}: ${box.title}`}
          >
            {open ? 'fold' : 'answer it here'}
          </Button>
        )}{' '}
        {link === undefined ? null : (
          <a className="small" href={link.to}>
            {link.say}
          </a>
        )}
      </p>
      {open && question !== undefined ? <Answering question={question} onDone={() => setOpen(false)} /> : null}
    </li>
  );
}

/** A box nobody mapped: said once, it is filled from then on. */
function Unmapped({ box, form }: { readonly box: FormBoxRow; readonly form: FormAnswer }) {
  const titles = new Map(form.sources.map(({ is, title }) => [is, title]));
  const likely = box.offered.map((is) => ({ id: is, title: `${titles.get(is) ?? is} (likely)` }));
  const rest = form.sources.filter(({ is }) => !box.offered.includes(is)).map(({ is, title }) => ({ id: is, title }));
  const hands = [
    { id: 'by hand', title: 'I write it by hand' },
    { id: 'leave', title: 'It stays empty' },
  ].filter(({ id }) => !box.offered.includes(id));
  const map = (source: string): void =>
    void perform(
      'map-form',
      { form: form.form, fills: { [box.field]: source } },
      { say: `Noted what goes into “${box.title}”` },
    );
  return (
    <li className="form-box unmapped" {...pointAt(box.field)}>
      <Pick
        label={`${box.title}: what goes here?`}
        options={[...likely, ...hands, ...rest]}
        value={undefined}
        onChange={map}
        placeholder={box.value === undefined ? 'Say it once' : `Now: ${box.value}`}
      />
    </li>
  );
}

/** One filled box: what stands in it, and from where. */
function Filled({ box }: { readonly box: FormBoxRow }) {
  return (
    <li className="form-box filled" {...pointAt(box.field)}>
      <span className="form-name">{box.title}</span>
      <span className="form-value">{box.value}</span>
      <span className="form-from small pencil">
        {box.from}
        {box.say === undefined ? '' : `. ${box.say}`}
      </span>
    </li>
  );
}

function Quiet({ title, boxes }: { readonly title: string; readonly boxes: readonly FormBoxRow[] }) {
  if (boxes.length === 0) return null;
  return (
    <section>
      <h3>{title}</h3>
      <p className="small">{boxes.map((box) => box.title).join(', ')}</p>
    </section>
  );
}

/** All boxes: those to look at first, then what nobody mapped, what is filled, what is for a person's own hand. */
export function FormBoxes({ form }: { readonly form: FormAnswer }) {
  const of = (...states: readonly BoxState[]) => form.boxes.filter(({ state }) => states.includes(state));
  const [wrong, open, filled] = [of(...troubled), of('unmapped'), of('filled')];
  return (
    <Scrolled className="form-boxes" label="The boxes of the form">
      {wrong.length === 0 ? null : (
        <section>
          <h3>To look at</h3>
          <ul>
            {wrong.map((box) => (
              <Troubled key={box.field} box={box} />
            ))}
          </ul>
        </section>
      )}
      {open.length === 0 ? null : (
        <section>
          <h3>What nobody mapped yet</h3>
          <ul>
            {open.map((box) => (
              <Unmapped key={box.field} box={box} form={form} />
            ))}
          </ul>
        </section>
      )}
      {filled.length === 0 ? null : (
        <section>
          <h3>Filled</h3>
          <ul>
            {filled.map((box) => (
              <Filled key={box.field} box={box} />
            ))}
          </ul>
        </section>
      )}
      <Quiet title="Yours to write" boxes={of('by hand')} />
      <Quiet title="Left empty" boxes={of('left', 'empty')} />
    </Scrolled>
  );
}
