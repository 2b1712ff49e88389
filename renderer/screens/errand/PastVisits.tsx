import type { CommentRow, PastVisitRow, ToldRow } from '../../../core/desk/contract/shown-rows.ts';
import { dayWithWeekday } from '../../../core/vocabulary/days.ts';
import { CommentAnswer } from '../../kit/CommentAnswer.tsx';
import type { Sight } from './errand-model.ts';

function Said({ row }: { readonly row: CommentRow }) {
  return (
    <li>
      <b className="errand-comment-number">{row.number}</b> {row.text}{' '}
      {row.answer === undefined ? <span className="small pencil">not answered</span> : <CommentAnswer comment={row} />}
    </li>
  );
}

function Visit({ row }: { readonly row: PastVisitRow }) {
  return (
    <li>
      <p>
        {dayWithWeekday(row.day)}: <strong>{row.words}</strong>
        {row.note === undefined ? '' : `. ${row.note}`}
      </p>
      {row.comments.length === 0 ? null : (
        <ol className="errand-past-said">
          {row.comments.map((one) => (
            <Said key={one.comment} row={one} />
          ))}
        </ol>
      )}
    </li>
  );
}

function Told({ row }: { readonly row: ToldRow }) {
  return (
    <li>
      <p>
        {dayWithWeekday(row.day)}: {row.who} said: {row.said}
      </p>
    </li>
  );
}

/** Every going that was made and what came of it, and what the office said otherwise: nobody has to remember why. */
export function PastVisits({ sight }: { readonly sight: Sight }) {
  const { past, told } = sight.answer;
  if (past.length + told.length === 0) return null;
  return (
    <section className="errand-goings">
      <h2 data-place="past visits" tabIndex={-1}>
        {past.length === 0 ? 'What they told you' : 'What came of it so far'}
      </h2>
      <ul className="errand-past">
        {past.map((row) => (
          <Visit key={row.visit} row={row} />
        ))}
        {told.map((row) => (
          <Told key={row.word} row={row} />
        ))}
      </ul>
    </section>
  );
}
