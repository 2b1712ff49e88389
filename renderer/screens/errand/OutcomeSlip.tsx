import { VisitSlip } from '../../kit/VisitSlip.tsx';
import { kindTitle, type Sight } from './errand-model.ts';
import { putAway } from './errand-store.ts';

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
  const { answer, target, practice } = sight;
  const { title, inspection, yields } = answer.errand;
  const about = {
    ...target,
    title,
    inspection,
    own: answer.office.sort === 'owner',
    outcomes: answer.outcomes,
    yields: yields.map((kind) => ({ kind, title: kindTitle(practice, kind) })),
    booked: answer.booked,
  };
  return <VisitSlip about={about} early={<TooEarly sight={sight} />} onClose={putAway} />;
}
