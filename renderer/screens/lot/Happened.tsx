import { useState } from 'react';
import type { EventAnswer, LotCard } from '../../../core/desk/contract/answers.ts';
import { type Day, dayInWords } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { FindingNote } from '../../kit/FindingNote.tsx';
import { Pick } from '../../kit/Pick.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { useAnswer } from '../../state/asked.ts';
import { perform } from '../../state/doing.ts';
import { useDay } from '../../state/session.ts';

/** Notes an event; what it means for papers and holds is told right here. */
function NoteEvent({ onClose }: { readonly onClose: () => void }) {
  const known = useAnswer('today', {}).answer?.events ?? [];
  const today = useDay();
  const [event, setEvent] = useState<string>();
  const [day, setDay] = useState<Day | undefined>(today);
  const [found, setFound] = useState<EventAnswer>();
  const note = async (): Promise<void> => {
    if (event === undefined || day === undefined) return;
    const title = known.find((each) => each.event === event)?.title ?? event;
    const reply = await perform('event', { event, day }, { say: `Noted: ${title}, ${dayInWords(day)}.` });
    if (reply.ok && reply.answer.findings.length > 0) setFound(reply.answer);
    else if (reply.ok) onClose();
  };
  if (found !== undefined) {
    return (
      <Slip title="Noted, and this follows" open onClose={onClose}>
        {found.findings.map((finding) => (
          <FindingNote key={finding.say} finding={finding} open />
        ))}
      </Slip>
    );
  }
  const shut = known.find((each) => each.event === event)?.shut === true;
  return (
    <Slip
      title="Something happened"
      open
      onClose={onClose}
      foot={
        <Button as="stamp" disabled={event === undefined || day === undefined} onPress={() => void note()}>
          Note it
        </Button>
      }
    >
      <Pick
        label="What happened?"
        options={known.map(({ event: id, title }) => ({ id, title }))}
        value={event}
        onChange={setEvent}
      />
      <DayField label="On which day?" value={day} onChange={setDay} />
      {shut ? <p>Something has to be settled before this may happen; noting it will say what.</p> : null}
    </Slip>
  );
}

/** Dated things that are no papers: some papers stay good only until one of them, others only because of one. */
export function Happened({ events }: { readonly events: LotCard['events'] }) {
  const [noting, setNoting] = useState(false);
  return (
    <section className="lot-card">
      <header>
        <h2>What happened</h2>
        <p className="small">Some papers start or stop being good on these days.</p>
      </header>
      {events.length === 0 ? (
        <p className="lot-none">Nothing noted yet: loan recorded, land cleared, construction begun ...</p>
      ) : (
        <ul className="lot-rows">
          {events.map(({ event, day, title, note }) => (
            <li key={`${event} ${day}`}>
              <span className="pencil">{dayInWords(day)}</span>
              <span>
                {title} <span className="small pencil">{note ?? ''}</span>
              </span>
              <span className="acts">
                <Button
                  as="word"
                  small
                  label={`remove: it did not happen, ${title}`}
                  onPress={() =>
                    void perform('remove-event', { event, day }, { say: `Removed: ${title}, ${dayInWords(day)}.` })
                  }
                >
                  remove: it did not happen
                </Button>
              </span>
            </li>
          ))}
        </ul>
      )}
      <div className="lot-add">
        <Button onPress={() => setNoting(true)}>Something happened</Button>
      </div>
      {noting ? <NoteEvent onClose={() => setNoting(false)} /> : null}
    </section>
  );
}
