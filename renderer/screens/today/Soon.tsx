import { useState } from 'react';
import type { SoonRow } from '../../../core/desk/contract/screen-answers.ts';
import { type Day, dayInWords } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { FindingNote } from '../../kit/FindingNote.tsx';
import { MoreTime } from '../../kit/MoreTimeSlip.tsx';
import { addressOf } from '../../state/place.ts';

const shownAtFirst = 4;

function About({ row, today }: { readonly row: SoonRow; readonly today: Day }) {
  if (row.title === '' && row.by === undefined) return null;
  return (
    <p className="small pencil today-about">
      {row.paper === undefined ? row.title : <a href={addressOf('papers', row.paper)}>{row.title}</a>}
      {row.by === undefined
        ? ''
        : `${row.title === '' ? '' : ', '}${row.by < today ? 'since' : 'by'} ${dayInWords(row.by)}`}{' '}
      {row.extend === undefined ? null : (
        <span className="no-print">
          <MoreTime paper={row.extend} title={row.title} />
        </span>
      )}
    </p>
  );
}

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
            <About row={row} today={today} />
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
