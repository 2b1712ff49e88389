import { useState } from 'react';
import type { EventAnswer } from '../../../core/desk/contract/answers.ts';
import type { TodayAnswer } from '../../../core/desk/contract/screen-answers.ts';
import type { Day } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { FindingNote } from '../../kit/FindingNote.tsx';
import { Pick } from '../../kit/Pick.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { perform } from '../../state/doing.ts';

function Outcome({ noted }: { readonly noted: EventAnswer }) {
  if (noted.findings.length === 0) return <p>Noted. Nothing on file speaks against it.</p>;
  return (
    <>
      <p>Noted, as you say it happened. But something should have been settled before:</p>
      {noted.findings.map((finding) => (
        <FindingNote key={finding.say} finding={finding} open />
      ))}
    </>
  );
}

interface NoteSlipProps {
  readonly answer: TodayAnswer;
  readonly onClose: () => void;
}

function NoteSlip({ answer, onClose }: NoteSlipProps) {
  const { events, holds } = answer;
  const [event, setEvent] = useState<string>();
  const [day, setDay] = useState<Day | undefined>(answer.day);
  const [note, setNote] = useState('');
  const [noted, setNoted] = useState<EventAnswer>();
  const chosen = events.find((each) => each.event === event);
  const shutting = holds.find((hold) => hold.event === event);
  const keep = async (): Promise<void> => {
    if (event === undefined || day === undefined) return;
    const said = note.trim() === '' ? {} : { note: note.trim() };
    const reply = await perform('event', { event, day, ...said }, { say: `Noted: ${chosen?.title ?? event}.` });
    if (reply.ok) setNoted(reply.answer);
  };
  const foot =
    noted === undefined ? (
      <Button as="stamp" disabled={event === undefined || day === undefined} onPress={() => void keep()}>
        Note it
      </Button>
    ) : (
      <Button as="stamp" onPress={onClose}>
        Done
      </Button>
    );
  return (
    <Slip title="Something happened?" open onClose={onClose} foot={foot}>
      {noted === undefined ? (
        <>
          <Pick
            label="What happened"
            placeholder="Choose what happened"
            options={events.map(({ event: id, title, shut }) => ({ id, title: shut ? `${title} (not yet)` : title }))}
            value={event}
            onChange={setEvent}
          />
          {chosen?.shut === true ? (
            <p className="today-caution">
              Something has to be settled before this
              {shutting === undefined ? '' : `: ${shutting.waitsFor.join(', ')}`}. If it has happened all the same, note
              it: the record has to be true.
            </p>
          ) : null}
          <DayField label="On which day" value={day} onChange={setDay} />
          <Field label="Note" value={note} onChange={setNote} />
        </>
      ) : (
        <Outcome noted={noted} />
      )}
    </Slip>
  );
}

/** Things that happen outside any office: construction begun, concrete poured. Noting one moves the clocks. */
export function Happened({ answer }: { readonly answer: TodayAnswer }) {
  const [noting, note] = useState(false);
  if (answer.events.length === 0) return null;
  return (
    <section className="today-happened">
      <h2>Something happened?</h2>
      <p className="small">Construction begun, concrete poured, first delivery: clocks start and stop with it.</p>
      <Button small onPress={() => note(true)}>
        Note what happened
      </Button>
      {noting ? <NoteSlip answer={answer} onClose={() => note(false)} /> : null}
    </section>
  );
}
