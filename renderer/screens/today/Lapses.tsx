import { type Day, dayInWords } from '../../../core/vocabulary/days.ts';
import { useAnswer } from '../../state/asked.ts';
import { addressOf } from '../../state/place.ts';

function askWords(askBy: Day, today: Day): string {
  return askBy < today ? `more time was to be asked for by ${dayInWords(askBy)}` : `ask by ${dayInWords(askBy)}`;
}

/** What has lapsed and is still needed, and what lapses within sixty days, by what has to be done first. */
export function Lapses() {
  const { answer } = useAnswer('lapses', {});
  if (answer === undefined || answer.rows.length === 0) return null;
  return (
    <section className="today-waiting" aria-labelledby="today-lapses">
      <h2 id="today-lapses">
        {answer.rows.some(({ days }) => days < 0) ? 'Lapsed, or lapses' : 'Lapses'} within {answer.within} days
      </h2>
      <ul>
        {answer.rows.map(({ kind, subject, title, number, through, days, askBy, paper }) => (
          <li key={`${kind} ${subject ?? ''}`}>
            {paper === undefined ? title : <a href={addressOf('papers', paper)}>{title}</a>} {number}
            <p className="small pencil">
              {days < 0 ? 'lapsed after' : 'good through'} {dayInWords(through)}
              {askBy === undefined ? '' : `; ${askWords(askBy, answer.day)}`}
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}
