import type { IdleRow } from '../../../core/desk/contract/screen-answers.ts';
import { dayInWords, dayWithWeekday } from '../../../core/vocabulary/days.ts';
import { moneyInWords } from '../../../core/vocabulary/money.ts';
import { MoreTime } from '../../kit/MoreTimeSlip.tsx';
import { addressOf } from '../../state/place.ts';
import { useDay } from '../../state/session.ts';
import { bookingInWords, daysAway, idleTone, liesInWords } from './words.ts';

/** What would start the clock anew, for the least money, and whether it comes in time. */
function Restart({ row }: { readonly row: IdleRow }) {
  const day = useDay();
  const { restart } = row;
  if (restart === undefined) return <p>No inspection still to come starts it anew: ask them for more time.</p>;
  const { errand, subject, title, fee, feeNote, earliest, inTime, waits, withThem, booking } = restart;
  const money = fee === undefined ? 'fee not known: ask' : fee === 0 ? 'no fee' : moneyInWords(fee);
  const cost = fee === undefined || feeNote === undefined ? money : `${money}, ${feeNote}`;
  return (
    <p>
      For the least money:{' '}
      <a href={addressOf('errand', errand, ...(subject === undefined ? [] : [subject]))}>{title}</a> ({cost}).{' '}
      {withThem !== undefined
        ? liesInWords(withThem, day)
        : booking === undefined
          ? earliest === undefined
            ? ''
            : `${dayWithWeekday(earliest)} at the earliest.`
          : bookingInWords(booking, waits)}{' '}
      {inTime ? null : <strong className="inspections-open">That is too late for it: ask for more time.</strong>}
    </p>
  );
}

function Clock({ row }: { readonly row: IdleRow }) {
  const { title, number, paper, through, days, span, since, last, extendable, askBy } = row;
  const over = days < 0;
  return (
    <li className={`inspections-idle ${idleTone(row)}`}>
      <p>
        <strong>
          <a href={addressOf('papers', paper)}>
            {title}
            {number === '' ? '' : ` ${number}`}
          </a>{' '}
          {over ? 'was good through' : 'good through'} {dayWithWeekday(through)}
        </strong>
        {over ? '; it has lapsed by its idle clock.' : `, ${daysAway(days)}, unless an ${since} comes before.`}{' '}
        <span className="pencil">
          {span} from {last === undefined ? 'its issue' : `the ${since} on ${dayInWords(last)}`}.
        </span>
      </p>
      <Restart row={row} />
      {extendable ? (
        <p>
          {askBy === undefined ? null : `More time has to be asked for by ${dayWithWeekday(askBy)}. `}
          <MoreTime paper={paper} title={title} />
        </p>
      ) : null}
    </li>
  );
}

/** Permits that lapse for want of an inspection. */
export function IdleClocks({ rows }: { readonly rows: readonly IdleRow[] }) {
  if (rows.length === 0) return null;
  return (
    <section aria-labelledby="inspections-idle">
      <h2 id="inspections-idle">The permit’s clock</h2>
      <ul>
        {rows.map((row) => (
          <Clock key={row.kind} row={row} />
        ))}
      </ul>
    </section>
  );
}
