import { useState } from 'react';
import type { TodayErrand } from '../../../core/desk/contract/screen-answers.ts';
import type { CarryRow } from '../../../core/desk/contract/shown-rows.ts';
import { Button } from '../../kit/Button.tsx';
import { Mark } from '../../kit/Mark.tsx';
import { addressOf } from '../../state/place.ts';
import { countInWords, useInWords } from './words.ts';

function Row({ row }: { readonly row: CarryRow }) {
  return (
    <li>
      <span className="today-box" aria-hidden="true" />
      <span className="today-paper">
        {row.edition === undefined ? row.title : <a href={addressOf('papers', row.edition)}>{row.title}</a>}{' '}
        <span className="pencil small">{useInWords(row)}</span>
      </span>
      {row.good ? (
        <Mark word="in hand" />
      ) : row.edition === undefined ? (
        <Mark word={row.state} />
      ) : (
        <Doubted row={row} />
      )}
    </li>
  );
}

/** In hand, but something speaks against it. */
function Doubted({ row }: { readonly row: CarryRow }) {
  return row.state === 'in hand' ? <Mark word="in hand" say="in hand, look at it" /> : <Mark word={row.state} />;
}

/** How many there are and how many are ready, in words. */
function summary(carry: readonly CarryRow[], bring: readonly string[]): string {
  const ready = carry.filter(({ good }) => good).length;
  const papers = `${countInWords(carry.length)} ${carry.length === 1 ? 'paper' : 'papers'}, ${ready === carry.length ? 'all' : ready === 0 ? 'none' : countInWords(ready)} ready`;
  // Where no paper goes along, the boxes below say it all.
  return carry.length === 0 ? '' : [papers, ...bring].join('; ');
}

/** What to carry, with boxes to tick on the printed slip; folded for all but the first errand. */
export function Carry({ errand, first }: { readonly errand: TodayErrand; readonly first: boolean }) {
  const { carry, bring, title } = errand;
  const [open, setOpen] = useState(first);
  if (carry.length === 0 && bring.length === 0) return <p>Nothing to carry.</p>;
  return (
    <div className="today-carry">
      <p>
        <strong>Carry:</strong> {summary(carry, bring)}{' '}
        {first || carry.length === 0 ? null : (
          <Button
            as="word"
            small
            onPress={() => setOpen(!open)}
            label={`${open ? 'Fold' : 'Show'} what to carry: ${title}`}
          >
            {open ? 'fold' : 'show'}
          </Button>
        )}
      </p>
      <ul className={open || carry.length === 0 ? '' : 'today-folded'}>
        {carry.map((row) => (
          <Row key={`${row.need} ${row.kind} ${row.title}`} row={row} />
        ))}
        {bring.map((what) => (
          <li key={what}>
            <span className="today-box" aria-hidden="true" />
            <span className="today-paper">{what}</span>
          </li>
        ))}
      </ul>
    </div>
  );
}
