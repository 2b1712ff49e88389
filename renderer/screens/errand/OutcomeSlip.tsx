import { useState } from 'react';
import type { Day } from '../../../core/vocabulary/days.ts';
import type { VisitOutcome, VisitState } from '../../../core/vocabulary/lot.ts';
import { Button } from '../../kit/Button.tsx';
import { Choices } from '../../kit/Choices.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { perform } from '../../state/doing.ts';
import { addressOf } from '../../state/place.ts';
import { useDay } from '../../state/session.ts';
import { kindTitle, type Sight } from './errand-model.ts';
import { putAway } from './errand-store.ts';

interface Came {
  readonly id: string;
  readonly title: string;
  readonly state: VisitState;
  readonly outcome?: VisitOutcome;
  /** Only an inspection ends like this. */
  readonly inspection?: boolean;
  /** They say what is wrong, point by point. */
  readonly comments?: boolean;
}

const ends: readonly Came[] = [
  { id: 'planned', title: 'Planned', state: 'planned' },
  { id: 'left', title: 'Left with them', state: 'left with them' },
  { id: 'settled', title: 'Settled', state: 'settled', inspection: false },
  { id: 'pass', title: 'Passed', state: 'settled', outcome: 'pass', inspection: true },
  {
    id: 'corrections',
    title: 'Passed, with corrections',
    state: 'settled',
    outcome: 'pass with corrections',
    inspection: true,
    comments: true,
  },
  { id: 'partial', title: 'Partly passed', state: 'settled', outcome: 'partial', inspection: true, comments: true },
  { id: 'fail', title: 'Failed', state: 'sent back', outcome: 'fail', inspection: true, comments: true },
  { id: 'access', title: 'Nobody let them in', state: 'settled', outcome: 'no access', inspection: true },
  { id: 'back', title: 'Sent back', state: 'sent back', comments: true },
  { id: 'letter', title: 'A letter instead', state: 'settled', outcome: 'letter in lieu' },
  { id: 'cancelled', title: 'Called off', state: 'settled', outcome: 'cancelled' },
];

function endsOf(inspection: boolean): readonly Came[] {
  return ends.filter((end) => end.inspection === undefined || end.inspection === inspection);
}

function Keep({ sight }: { readonly sight: Sight }) {
  const { yields } = sight.answer.errand;
  if (yields.length === 0) return null;
  return (
    <p className="small">
      Keep what they gave you, paper by paper:{' '}
      {yields.map((kind, at) => (
        <span key={kind}>
          {at === 0 ? '' : ', '}
          <a href={addressOf('table', 'as', kind)}>{kindTitle(sight.practice, kind)}</a>
        </span>
      ))}
      .
    </p>
  );
}

/** Settled before its time: noted only where it truly happened, for everything after it is read by it. */
function TooEarly({ sight }: { readonly sight: Sight }) {
  const { reading, needs } = sight.answer;
  if (reading.state !== "can't go yet") return null;
  const missing = needs.filter(({ state }) => state === 'not asked for' || state === 'awaited').length;
  const papers =
    missing === 0
      ? ''
      : `, and ${missing} ${missing === 1 ? 'paper it asks for is' : 'papers it asks for are'} not in hand`;
  return (
    <p className="errand-red" role="status">
      As the papers stand this errand can’t be gone on yet{papers}. Note it only if it truly happened: what comes after
      is read by it.
    </p>
  );
}

/** One going to the office, and what came of it. */
export function OutcomeSlip({ sight }: { readonly sight: Sight }) {
  const { answer, target } = sight;
  const today = useDay();
  const options = endsOf(answer.errand.inspection);
  const [picked, pick] = useState<string>();
  const [day, setDay] = useState<Day | undefined>(today);
  const [note, setNote] = useState('');
  const [comments, setComments] = useState('');
  const [due, setDue] = useState<Day>();
  const came = options.find(({ id }) => id === picked);
  const lines = comments.split('\n').flatMap((line) => (line.trim() === '' ? [] : [line.trim()]));
  const ready = came !== undefined && day !== undefined;
  const act = async (): Promise<void> => {
    if (!ready) return;
    const outcome = came.outcome === undefined ? {} : { outcome: came.outcome };
    const said = note.trim() === '' ? {} : { note: note.trim() };
    const points = came.comments === true ? { comments: lines, due } : {};
    const say = `${answer.errand.title}: ${came.title.toLowerCase()}.`;
    const reply = await perform(
      'visit',
      { ...target, day, state: came.state, ...outcome, ...said, ...points },
      { say },
    );
    if (reply.ok) putAway();
  };
  return (
    <Slip
      title="What came of it"
      open
      wide
      onClose={putAway}
      foot={
        <Button as="stamp" disabled={!ready} onPress={() => void act()}>
          Note it
        </Button>
      }
    >
      <div className="errand-slip">
        <Choices label={answer.errand.title} options={options} value={picked} onChange={pick} />
        <div className="errand-pair">
          <DayField label="On" value={day} onChange={setDay} />
          <Field label="Note (if you like)" value={note} onChange={setNote} />
        </div>
        {came?.comments === true ? (
          <>
            <Field
              label="Their comments, one per line"
              value={comments}
              onChange={setComments}
              lines
              hint="They are numbered in this order; numbers of their own can be set afterwards."
            />
            <DayField label="Answer by, where they said so" value={due} onChange={setDue} />
          </>
        ) : null}
        {came?.state === 'settled' ? <TooEarly sight={sight} /> : null}
        {came?.state === 'settled' ? <Keep sight={sight} /> : null}
        {answer.errand.inspection ? (
          <p className="small pencil">
            Only a result that the office recorded counts. Lotfile notes who passed what and when; it never says that
            something may be covered.
          </p>
        ) : null}
      </div>
    </Slip>
  );
}
