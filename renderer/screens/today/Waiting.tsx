import type { TodayAnswer, WaitingRow } from '../../../core/desk/contract/screen-answers.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { Mark } from '../../kit/Mark.tsx';
import { addressOf } from '../../state/place.ts';
import { countInWords, daysInWords } from './words.ts';

function Row({ row, today }: { readonly row: WaitingRow; readonly today: TodayAnswer['day'] }) {
  const { errand, subject, subjectTitle, title, office, since, days, expected } = row;
  const late = expected !== undefined && expected < today;
  return (
    <li>
      <a href={addressOf('errand', errand, ...(subject === undefined ? [] : [subject]))}>
        {subjectTitle === undefined ? title : `${title}: ${subjectTitle}`}
      </a>
      <p className="small">
        {office.title}, since {dayInWords(since)}, {daysInWords(days)}.{' '}
        {expected === undefined ? null : (
          <span className={late ? 'today-late' : ''}>
            {late ? `It should have been back ${dayInWords(expected)}: call` : `Back by ${dayInWords(expected)}`}
            {late && office.phone !== undefined ? ` ${office.phone}` : ''}.
          </span>
        )}
      </p>
    </li>
  );
}

/** Where the ball lies with somebody else, and what came back that can't be gone on today. */
export function Waiting({ answer }: { readonly answer: TodayAnswer }) {
  const { waiting, back, can, day } = answer;
  const later = back.filter((row) => !can.some((one) => one.errand === row.errand && one.subject === row.subject));
  if (waiting.length === 0 && later.length === 0) return null;
  return (
    <section>
      <h2>You wait for</h2>
      <ul className="today-waiting">
        {later.map((row) => (
          <li key={`back ${row.errand} ${row.subject ?? ''}`}>
            <a href={addressOf('errand', row.errand, ...(row.subject === undefined ? [] : [row.subject]))}>
              {row.title}
            </a>{' '}
            <Mark word="sent back" say={row.cameBack} />
            <p className="small">
              {countInWords(row.comments.length)} {row.comments.length === 1 ? 'comment' : 'comments'} to answer.
            </p>
          </li>
        ))}
        {waiting.map((row) => (
          <Row key={`${row.errand} ${row.subject ?? ''}`} row={row} today={day} />
        ))}
      </ul>
    </section>
  );
}
