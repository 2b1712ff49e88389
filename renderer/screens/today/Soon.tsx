import { useState } from 'react';
import type { SoonRow } from '../../../core/desk/contract/screen-answers.ts';
import type { Day } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { FindingNote } from '../../kit/FindingNote.tsx';
import { AboutPaper } from './AboutPaper.tsx';

const shownAtFirst = 4;

/** What has to be done about papers within a month. */
export function Soon({ rows, today }: { readonly rows: readonly SoonRow[]; readonly today: Day }) {
  const [all, showAll] = useState(false);
  if (rows.length === 0) return null;
  const rest = rows.length - shownAtFirst;
  return (
    <section className="today-soon">
      <h2>Soon</h2>
      <ul>
        {rows.map((row, index) => (
          <li key={`${row.sort} ${row.say}`} className={!all && index >= shownAtFirst ? 'today-folded' : ''}>
            <FindingNote finding={row} />
            <AboutPaper row={row} today={today} />
          </li>
        ))}
      </ul>
      {rest <= 0 ? null : (
        <Button as="word" small onPress={() => showAll(!all)}>
          {all ? 'Fewer' : `${rest} more`}
        </Button>
      )}
    </section>
  );
}
