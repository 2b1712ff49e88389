import type { InspectionRow } from '../../../core/desk/contract/screen-answers.ts';
import { dayWithWeekday } from '../../../core/vocabulary/days.ts';
import { Mark } from '../../kit/Mark.tsx';
import { addressOf } from '../../state/place.ts';
import { useDay } from '../../state/session.ts';
import { Details } from './Details.tsx';
import { RowActs } from './RowActs.tsx';
import { bookingInWords, liesInWords, titleOf } from './words.ts';

/** When they come, or what has to be done first, in a sentence. */
export function When({ row }: { readonly row: InspectionRow }) {
  const day = useDay();
  const { withThem, booked, booking, earliest, waitsFor, state } = row;
  if (withThem !== undefined) {
    return <p>{liesInWords(withThem, day)}</p>;
  }
  if (booked !== undefined) {
    return (
      <p>
        <strong>Booked for {dayWithWeekday(booked.day)}.</strong>
      </p>
    );
  }
  const first = waitsFor.slice(0, 3).map(({ errand, title }, at) => (
    <span key={errand}>
      {at === 0 ? '' : ', '}
      <a href={addressOf('errand', errand)}>{title}</a>
    </span>
  ));
  const more = waitsFor.length - first.length;
  return (
    <>
      {booking === undefined ? (
        earliest === undefined ? null : (
          <p>{dayWithWeekday(earliest)} at the earliest.</p>
        )
      ) : (
        <p>{bookingInWords(booking, waitsFor.length > 0)}</p>
      )}
      {state === 'can go' || waitsFor.length === 0 ? null : (
        <p className="small">
          First: {first}
          {more > 0 ? ` and ${more} more` : ''}.
        </p>
      )}
    </>
  );
}

/** The one that comes next, with everything to have ready for it. */
export function NextOne({ row, any }: { readonly row: InspectionRow | undefined; readonly any: boolean }) {
  if (row === undefined) {
    return (
      <section className="empty">
        <h2>{any ? 'Nothing more to be looked at' : 'No inspection is asked for here'}</h2>
        <p>
          {any
            ? 'Every inspection the rules on file ask for is recorded. Ask the office whether theirs say so too.'
            : 'The rules on file name no inspection for this lot. A place without a building office still has a health office and an insurer that come to look: ask them.'}
        </p>
      </section>
    );
  }
  const { errand, subject, state, recorded } = row;
  return (
    <section className="inspections-next" aria-labelledby="inspections-next">
      <h2 id="inspections-next">Next</h2>
      <div className="inspections-next-head">
        <div>
          <h3>
            <a href={addressOf('errand', errand, ...(subject === undefined ? [] : [subject]))}>{titleOf(row)}</a>{' '}
            <Mark word={state} />
          </h3>
          <When row={row} />
          <p className="small pencil">{recorded}</p>
        </div>
        <RowActs row={row} main />
      </div>
      <Details row={row} />
    </section>
  );
}
