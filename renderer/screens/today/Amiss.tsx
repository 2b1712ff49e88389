import type { SoonRow } from '../../../core/desk/contract/screen-answers.ts';
import type { Day } from '../../../core/vocabulary/days.ts';
import { FindingNote } from '../../kit/FindingNote.tsx';
import { AboutPaper } from './AboutPaper.tsx';

/** What is wrong with papers, or ends before it is needed: whoever is shown them will object, so this comes before any trip. */
export function Amiss({ rows, today }: { readonly rows: readonly SoonRow[]; readonly today: Day }) {
  if (rows.length === 0) return null;
  return (
    <section className="today-soon today-amiss">
      <h2>Put right first</h2>
      <ul>
        {rows.map((row) => (
          <li key={row.say}>
            <FindingNote finding={row} />
            <AboutPaper row={row} today={today} />
          </li>
        ))}
      </ul>
    </section>
  );
}
