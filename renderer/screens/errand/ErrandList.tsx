import type { WayAnswer } from '../../../core/desk/contract/answers.ts';
import { dayWithWeekday } from '../../../core/vocabulary/days.ts';
import type { ErrandState } from '../../../core/vocabulary/finding.ts';
import { Answered } from '../../kit/Answered.tsx';
import { Mark } from '../../kit/Mark.tsx';
import { useAnswer } from '../../state/asked.ts';
import { addressOf } from '../../state/place.ts';

type Stop = WayAnswer['stops'][number];

const groups: readonly (readonly [ErrandState, string])[] = [
  ['sent back', 'Sent back, turned away or not passed: answer these first'],
  ['can go', 'You can go'],
  ['left with them', 'With the offices'],
  ["can't go yet", 'Not yet'],
  ['settled', 'Settled'],
  ["doesn't apply", 'Not asked of your lot'],
];

function whenOf({ state, earliest, due }: Stop): string {
  if (state === 'left with them') return due === undefined ? 'you wait' : `back by ${dayWithWeekday(due)}`;
  if (state === 'settled' || state === "doesn't apply") return '';
  if (earliest === undefined) return 'no day known';
  return state === "can't go yet" ? `from ${dayWithWeekday(earliest)}` : '';
}

function Line({ stop, subject }: { readonly stop: Stop; readonly subject: string | undefined }) {
  const rest = stop.subject === undefined ? [stop.errand] : [stop.errand, stop.subject];
  return (
    <li>
      <a className="slab" href={addressOf('errand', ...rest)}>
        {stop.title}
        {subject === undefined ? '' : `, ${subject}`}
      </a>
      <span>{stop.office}</span>
      <span className="pencil">{whenOf(stop)}</span>
    </li>
  );
}

function Groups({ way }: { readonly way: WayAnswer }) {
  const subjects = useAnswer('read-lot', {}).answer?.subjects ?? [];
  return groups.map(([state, title]) => {
    const stops = way.stops.filter((stop) => stop.state === state);
    if (stops.length === 0) return null;
    return (
      <section key={state} className="errand-group">
        <h2>
          {title} <Mark word={state} say={`${stops.length} ${state}`} />
        </h2>
        <ul>
          {stops.map((stop) => (
            <Line
              key={`${stop.errand} ${stop.subject ?? ''}`}
              stop={stop}
              subject={subjects.find(({ id }) => id === stop.subject)?.title}
            />
          ))}
        </ul>
      </section>
    );
  });
}

/** Every errand of the lot, by what can be done about it. */
export function ErrandList() {
  const way = useAnswer('way', {});
  return (
    <>
      <header>
        <div>
          <h1>Errands</h1>
          <p className="lead">
            Going to one office for one purpose. Choose one to see what they will say, and its packet.
          </p>
        </div>
      </header>
      <div className="errand-one">
        <Answered of={way}>{(answer) => <Groups way={answer} />}</Answered>
      </div>
    </>
  );
}
