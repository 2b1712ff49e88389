import type { CorrectionsRow } from '../../../core/desk/contract/screen-answers.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { addressOf } from '../../state/place.ts';
import { Comments } from '../offices/Comments.tsx';
import { openInWords } from './words.ts';

/** What they want put right, by their numbers: until when, what was done about it, and the paper that shows it. */
export function Corrections({ rows }: { readonly rows: readonly CorrectionsRow[] }) {
  if (rows.length === 0) return null;
  return (
    <section className="inspections-corrections" aria-labelledby="inspections-corrections">
      <h2 id="inspections-corrections">Corrections</h2>
      <ul>
        {rows.map((row) => (
          <li key={row.visit}>
            <h3>
              <a href={addressOf('errand', row.errand, ...(row.subject === undefined ? [] : [row.subject]))}>
                {row.title}
              </a>
              , {row.words} {dayInWords(row.day)}{' '}
              <span className={row.open === 0 ? 'small' : 'small inspections-open'}>{openInWords(row)}</span>
            </h3>
            <Comments row={row} />
          </li>
        ))}
      </ul>
    </section>
  );
}
