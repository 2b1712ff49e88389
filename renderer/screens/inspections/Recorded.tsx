import type { InspectionRow } from '../../../core/desk/contract/screen-answers.ts';
import { Mark } from '../../kit/Mark.tsx';
import { addressOf } from '../../state/place.ts';
import { keyOf, titleOf } from './words.ts';

function capital(text: string): string {
  return text.replace(/^./, (letter) => letter.toUpperCase());
}

/** What is recorded as passed or settled: who, and when; never that something may be covered. */
export function Recorded({ rows }: { readonly rows: readonly InspectionRow[] }) {
  if (rows.length === 0) return null;
  return (
    <section aria-labelledby="inspections-recorded">
      <h2 id="inspections-recorded">Recorded</h2>
      <ul>
        {rows.map((row) => (
          <li key={keyOf(row)} className="inspections-row">
            <div className="inspections-line">
              <h3>
                <a href={addressOf('errand', row.errand, ...(row.subject === undefined ? [] : [row.subject]))}>
                  {titleOf(row)}
                </a>{' '}
                <Mark word="settled" />
              </h3>
              <p className="inspections-passed">{capital(row.recorded)}.</p>
            </div>
          </li>
        ))}
      </ul>
      <p className="small pencil">
        This repeats what you recorded. The signed card at the site and the inspector decide what comes after.
      </p>
    </section>
  );
}
