import type { SoonRow } from '../../../core/desk/contract/screen-answers.ts';
import { type Day, dayInWords } from '../../../core/vocabulary/days.ts';
import { useAnswer } from '../../state/asked.ts';
import { addressOf } from '../../state/place.ts';

function askWords(askBy: Day, today: Day): string {
  return askBy < today ? `more time was to be asked for by ${dayInWords(askBy)}` : `ask by ${dayInWords(askBy)}`;
}

/** What lapses within sixty days, by what has to be done first; what the slip tells already stands there alone. */
export function Lapses({ told }: { readonly told: readonly SoonRow[] }) {
  const { answer } = useAnswer('lapses', {});
  if (answer === undefined) return null;
  const rows = answer.rows.filter(
    ({ kind, subject }) => !told.some((row) => row.kind === kind && row.subject === subject),
  );
  if (rows.length === 0) return null;
  return (
    <section className="today-waiting" aria-labelledby="today-lapses">
      <h2 id="today-lapses">Later, within {answer.within} days</h2>
      <ul>
        {rows.map(({ kind, subject, title, number, through, askBy, paper }) => (
          <li key={`${kind} ${subject ?? ''}`}>
            {paper === undefined ? title : <a href={addressOf('papers', paper)}>{title}</a>} {number}
            <p className="small pencil">
              lapses after {dayInWords(through)}
              {askBy === undefined ? '' : `; ${askWords(askBy, answer.day)}`}
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}
