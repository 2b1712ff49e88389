import type { CorrectionsRow } from '../../../core/desk/contract/inspection-answers.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { addressOf } from '../../state/place.ts';

function Open({ row }: { readonly row: CorrectionsRow }) {
  const open = row.comments.filter(({ answered }) => answered === undefined);
  return (
    <li>
      <p>
        <a href={addressOf('errand', row.errand, ...(row.subject === undefined ? [] : [row.subject]))}>{row.title}</a>,{' '}
        {row.words} {dayInWords(row.day)}
      </p>
      <ul className="small today-open">
        {open.map(({ comment, number, text, due }) => (
          <li key={comment}>
            {number}. {text}
            {due === undefined ? null : <span className="pencil"> Answer by {dayInWords(due)}.</span>}
          </li>
        ))}
      </ul>
    </li>
  );
}

/** What an inspection that went well all the same wants put right. */
export function Corrections({ rows }: { readonly rows: readonly CorrectionsRow[] }) {
  if (rows.length === 0) return null;
  return (
    <section className="today-soon" aria-labelledby="today-corrections">
      <h2 id="today-corrections">Corrections still open</h2>
      <ul>
        {rows.map((row) => (
          <Open key={row.visit} row={row} />
        ))}
      </ul>
      <p className="small no-print">
        <a href={addressOf('inspections')}>Say what was done about each</a>
      </p>
    </section>
  );
}
