import { type ReactNode, useState } from 'react';
import type { BookedRow } from '../../core/desk/contract/screen-answers.ts';
import { type Day, dayWithWeekday } from '../../core/vocabulary/days.ts';
import type { VisitOutcome } from '../../core/vocabulary/practice.ts';
import { perform } from '../state/doing.ts';
import { addressOf } from '../state/place.ts';
import { useDay } from '../state/session.ts';
import { Button } from './Button.tsx';
import { Choices } from './Choices.tsx';
import { DayField } from './DayField.tsx';
import { Field } from './Field.tsx';
import { Slip } from './Slip.tsx';
import { endsOf, type VisitEnd } from './visit-ends.ts';

/** The errand a visit is noted of. */
export interface VisitAbout {
  readonly errand: string;
  readonly subject?: string | undefined;
  readonly title: string;
  readonly inspection: boolean;
  /** The owner's own to do: nobody takes it, looks at it or sends it back. */
  readonly own?: boolean | undefined;
  /** The words the office may leave it with. */
  readonly outcomes: readonly VisitOutcome[];
  /** Kinds it brings, with their titles. */
  readonly yields: readonly { readonly kind: string; readonly title: string }[];
  /** The day that was agreed: what came of it takes its place. */
  readonly booked?: BookedRow | undefined;
}

function Keep({ yields }: VisitAbout) {
  if (yields.length === 0) return null;
  return (
    <p className="small">
      Keep what they gave you, paper by paper:{' '}
      {yields.map(({ kind, title }, at) => (
        <span key={kind}>
          {at === 0 ? '' : ', '}
          <a href={addressOf('table', 'as', kind)}>{title}</a>
        </span>
      ))}
      .
    </p>
  );
}

/** They came and looked, or took the papers: there is something to keep. */
function tookPlace({ state, outcome }: VisitEnd): boolean {
  return state === 'settled' && outcome !== 'no access' && outcome !== 'cancelled';
}

/** What has to be said beside an end, where anything has. */
function hintFor({ id }: VisitEnd): string | undefined {
  switch (id) {
    case 'corrections':
      return 'It is passed; what they want put right stands by its number until you close it.';
    case 'partial':
      return 'Say in the note which part: what they did not pass stays open, and what waits for it stays shut.';
    case 'fail':
      return 'Ask for the list by number, and the section it rests on.';
    case 'access':
      return 'They came and could not get in. It counts as no inspection: nothing is settled and no clock starts anew.';
    case 'cancelled':
      return 'It counts as no inspection: nothing is settled and no clock starts anew.';
    case 'back':
      return 'They had it and returned it. Where they did not take it at all, say that you were turned away.';
    case 'turned':
      return 'They did not take it: nothing lies with them, and no clock of theirs runs. Note what they want first.';
    case 'letter':
      return 'Keep the licensed person’s letter, and note whose it is and that they took it.';
    default:
      return undefined;
  }
}

const wasIt = [
  { id: 'yes', title: 'Yes, on another day' },
  { id: 'no', title: 'No, that booking stands' },
];

export interface VisitSlipProps {
  readonly about: VisitAbout;
  /** Told where it is settled before its time. */
  readonly early?: ReactNode;
  readonly onClose: () => void;
}

/** One going to the office, or their coming out, and what came of it. */
export function VisitSlip({ about, early, onClose }: VisitSlipProps) {
  const today = useDay();
  const { errand, subject, title, inspection, booked } = about;
  const options = endsOf(about);
  const [picked, pick] = useState<string>();
  const [day, setDay] = useState<Day | undefined>(booked?.day ?? today);
  const [was, setWas] = useState<string>();
  const [note, setNote] = useState('');
  const [comments, setComments] = useState('');
  const [due, setDue] = useState<Day>();
  const came = options.find(({ id }) => id === picked);
  const lines = comments.split('\n').flatMap((line) => (line.trim() === '' ? [] : [line.trim()]));
  const hint = came === undefined ? undefined : hintFor(came);
  const planned = came?.state === 'planned';
  // A result is noted once they came; and which visit it was has to be said where the day isn't the booked one.
  const ahead = day !== undefined && day > today && came !== undefined && !planned;
  const asks = booked !== undefined && day !== undefined && day !== booked.day && !planned;
  const ready = came !== undefined && day !== undefined && !ahead && (!asks || was !== undefined);
  const act = async (): Promise<void> => {
    if (!ready) return;
    const reply = await perform(
      'visit',
      {
        errand,
        subject,
        visit: asks && was === 'no' ? undefined : booked?.visit,
        day,
        state: came.state,
        outcome: came.outcome,
        ...(note.trim() === '' ? {} : { note: note.trim() }),
        ...(came.comments === true ? { comments: lines, due } : {}),
      },
      { say: `${title}: ${came.title.toLowerCase()}.` },
    );
    if (reply.ok) onClose();
  };
  return (
    <Slip
      title="What came of it"
      open
      wide
      onClose={onClose}
      foot={
        <Button as="stamp" disabled={!ready} onPress={() => void act()}>
          Note it
        </Button>
      }
    >
      <div className="amend-form">
        <Choices label={title} options={options} value={picked} onChange={pick} />
        {hint === undefined ? null : <p className="small">{hint}</p>}
        <div className="amend-pair">
          <DayField
            label="On"
            value={day}
            onChange={setDay}
            hint={
              ahead
                ? `${dayWithWeekday(day)} is still to come: say the day they came.`
                : booked === undefined
                  ? undefined
                  : `Booked for ${dayWithWeekday(booked.day)}.`
            }
          />
          <Field
            label="Note (if you like)"
            value={note}
            onChange={setNote}
            hint={inspection ? 'Who came, by name.' : undefined}
          />
        </div>
        {asks && booked !== undefined ? (
          <Choices
            label={`Was this the visit booked for ${dayWithWeekday(booked.day)}?`}
            options={wasIt}
            value={was}
            onChange={setWas}
          />
        ) : null}
        {came?.comments === true ? (
          <>
            <Field
              label={`Their ${inspection ? 'corrections' : 'comments'}, one per line`}
              value={comments}
              onChange={setComments}
              lines
              hint="They are numbered in this order; numbers of their own can be set afterwards."
            />
            <DayField label="Answer by, where they said so" value={due} onChange={setDue} />
          </>
        ) : null}
        {came !== undefined && tookPlace(came) ? early : null}
        {came !== undefined && tookPlace(came) ? <Keep {...about} /> : null}
        {inspection ? (
          <p className="small pencil">
            Only a result that the office recorded counts. Lotfile notes who passed what and when; it never says that
            something may be covered.
          </p>
        ) : null}
      </div>
    </Slip>
  );
}
