import type { AwaitedRow, OfficeRow, WaitingRow } from '../../../core/desk/contract/screen-answers.ts';
import type { OfficeCard } from '../../../core/desk/contract/shown-rows.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { Answered } from '../../kit/Answered.tsx';
import { Mark } from '../../kit/Mark.tsx';
import { useAnswer } from '../../state/asked.ts';
import { addressOf } from '../../state/place.ts';
import { Changed, Unseen } from './Changed.tsx';
import { Comments } from './Comments.tsx';
import { Handed } from './Handed.tsx';
import './offices.css';

function ErrandLink({ row }: { readonly row: WaitingRow }) {
  const to = row.subject === undefined ? addressOf('errand', row.errand) : addressOf('errand', row.errand, row.subject);
  return (
    <a href={to}>
      {row.title}
      {row.subjectTitle === undefined ? '' : `, ${row.subjectTitle}`}
    </a>
  );
}

function days(count: number): string {
  if (count === 0) return 'today';
  return count === 1 ? '1 day' : `${count} days`;
}

function Waiting({ row }: { readonly row: WaitingRow }) {
  return (
    <li>
      <Mark word="left with them" />
      <span>
        <ErrandLink row={row} />
      </span>
      <span className="small pencil">
        since {dayInWords(row.since)}, {days(row.days)}
        {row.expected === undefined ? '' : `; back by ${dayInWords(row.expected)} at their slow end`}
      </span>
    </li>
  );
}

function Awaited({ row }: { readonly row: AwaitedRow }) {
  return (
    <li>
      <Mark word="awaited" />
      <span>
        {row.title}, from <a href={addressOf('errand', row.errand)}>{row.errandTitle}</a>
      </span>
      <span className="small pencil">
        {row.expected === undefined ? '' : `expected by ${dayInWords(row.expected)}`}
      </span>
    </li>
  );
}

function contactOf({ street, phone, hours }: OfficeCard): string {
  return [phone, hours, street].filter((each) => each !== undefined).join(' · ');
}

function Office({ row }: { readonly row: OfficeRow }) {
  const { office, waiting, back, handed, awaited, clocks, unseen } = row;
  return (
    <section className="office">
      <header>
        <h2>{office.title}</h2>
        <p className="small pencil">{contactOf(office)}</p>
      </header>
      <ul className="office-rows">
        {back.map((each) => (
          <li key={`back ${each.errand} ${each.subject ?? ''}`}>
            <Mark word="sent back" say={each.cameBack} />
            <div>
              <ErrandLink row={each} />
              <Comments row={each} />
            </div>
            <span className="small pencil">since {dayInWords(each.since)}</span>
          </li>
        ))}
        {waiting.map((each) => (
          <Waiting key={`${each.errand} ${each.subject ?? ''}`} row={each} />
        ))}
        {awaited.map((each) => (
          <Awaited key={`${each.kind} ${each.errand}`} row={each} />
        ))}
        {clocks.map(({ say, through }) => (
          <li key={say}>
            <Mark word="lapsing" say={`by ${dayInWords(through)}`} />
            <span>{say}</span>
          </li>
        ))}
        {unseen.map((each) => (
          <Unseen key={`unseen ${each.paper}`} row={each} />
        ))}
        {handed.map((each) => (
          <Handed key={each.handover} handed={each} />
        ))}
      </ul>
    </section>
  );
}

/** Who holds what, since when, and what you wait for. */
export function OfficesScreen() {
  const answer = useAnswer('with-offices', {});
  return (
    <>
      <header>
        <div>
          <h1>With the offices</h1>
          <p className="lead">Who holds what, since when, and what you wait for.</p>
        </div>
      </header>
      <Answered of={answer}>
        {({ changed, offices, others }) =>
          changed.length + offices.length + others.length === 0 ? (
            <div className="empty">
              <h2>Nothing is with an office yet</h2>
              <p>
                When you hand a packet over, or leave papers with an office, it is noted here: what exactly, to whom, on
                what receipt, and how long ago.
              </p>
              <a className="button plain" href={addressOf('today')}>
                See what you can do today
              </a>
            </div>
          ) : (
            <>
              {changed.map((row) => (
                <Changed key={row.paper} row={row} />
              ))}
              {offices.map((row) => (
                <Office key={row.office.id} row={row} />
              ))}
              {others.length === 0 ? null : (
                <section className="office">
                  <header>
                    <h2>Others</h2>
                  </header>
                  <ul className="office-rows">
                    {others.map((each) => (
                      <Handed key={each.handover} handed={each} />
                    ))}
                  </ul>
                </section>
              )}
            </>
          )
        }
      </Answered>
    </>
  );
}
