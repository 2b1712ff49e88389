import type { SoonRow } from '../../../core/desk/contract/screen-answers.ts';
import { FindingNote } from '../../kit/FindingNote.tsx';

/** Papers that speak against each other: whoever is shown them will object, so this comes before any trip. */
export function Amiss({ rows }: { readonly rows: readonly SoonRow[] }) {
  if (rows.length === 0) return null;
  return (
    <section className="today-soon today-amiss">
      <h2>Put right first</h2>
      <ul>
        {rows.map((row) => (
          <li key={row.say}>
            <FindingNote finding={row} />
          </li>
        ))}
      </ul>
    </section>
  );
}
