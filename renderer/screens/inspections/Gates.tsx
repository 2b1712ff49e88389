import { useState } from 'react';
import type { GateRow, InspectionsAnswer } from '../../../core/desk/contract/screen-answers.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { addressOf } from '../../state/place.ts';
import { savePaper } from '../../state/writing.ts';
import { gatesOf } from './order.ts';

const shownAtFirst = 3;

type Rest = GateRow['rests'][number];

function RestLine({ rest }: { readonly rest: Rest }) {
  const { errand, subject, title, recorded, settled } = rest;
  return (
    <li>
      <a href={addressOf('errand', errand, ...(subject === undefined ? [] : [subject]))}>{title}</a>
      <span className={settled ? 'small inspections-passed' : 'small inspections-open'}>{recorded}</span>
    </li>
  );
}

function Gate({ gate }: { readonly gate: GateRow }) {
  const { hold, title, say, rests, unknown, happened, eventTitle } = gate;
  return (
    <li className="inspections-gate">
      <h3>{title}</h3>
      {happened === undefined ? null : (
        <p className="inspections-broken">
          “{eventTitle}” is noted on {dayInWords(happened)}, and not all it waited for is recorded. Tell the inspector
          before anything goes on.
        </p>
      )}
      {unknown ? <p className="small">First find out whether it is asked here.</p> : null}
      <ul>
        {rests.map((rest) => (
          <RestLine key={`${rest.errand} ${rest.subject ?? ''}`} rest={rest} />
        ))}
      </ul>
      <p className="small pencil">{say}</p>
      <p>
        <Button
          as="word"
          small
          onPress={() => void savePaper({ sort: 'hold-sheet', hold })}
          label={`Save the hold sheet: ${title}`}
        >
          Save the hold sheet
        </Button>
      </p>
    </li>
  );
}

/** What may not be done yet, in large letters, the nearest first; what is recorded of each thing it waits for. */
export function Gates({ answer }: { readonly answer: InspectionsAnswer }) {
  const [all, showAll] = useState(false);
  const { broken, shut } = gatesOf(answer);
  const gates = [...broken, ...shut];
  if (gates.length === 0) return null;
  const shown = all ? gates : gates.slice(0, Math.max(shownAtFirst, broken.length));
  const rest = gates.length - shown.length;
  return (
    <section className="inspections-gates" aria-labelledby="inspections-gates">
      <h2 id="inspections-gates">Not yet</h2>
      <ul>
        {shown.map((gate) => (
          <Gate key={gate.hold} gate={gate} />
        ))}
      </ul>
      {rest > 0 || all ? (
        <p>
          <Button as="word" small onPress={() => showAll(!all)}>
            {all ? 'Only the nearest' : `${rest} more, further along`}
          </Button>
        </p>
      ) : null}
    </section>
  );
}
