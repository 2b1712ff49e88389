import { useState } from 'react';
import type { InspectionRow } from '../../../core/desk/contract/screen-answers.ts';
import { Button } from '../../kit/Button.tsx';
import { Mark } from '../../kit/Mark.tsx';
import { addressOf } from '../../state/place.ts';
import { Details } from './Details.tsx';
import { When } from './NextOne.tsx';
import { RowActs } from './RowActs.tsx';
import { keyOf, titleOf } from './words.ts';

function Row({ row }: { readonly row: InspectionRow }) {
  const [open, setOpen] = useState(false);
  const { errand, subject, state, holds, recorded, visits, office } = row;
  const title = titleOf(row);
  return (
    <li className="inspections-row">
      <div className="inspections-line">
        <div>
          <h3>
            <a href={addressOf('errand', errand, ...(subject === undefined ? [] : [subject]))}>{title}</a>{' '}
            <Mark word={state} />
          </h3>
          <p className="small pencil">{office.title}</p>
        </div>
        <div>
          <When row={row} />
          {visits.length === 0 ? null : <p className="small">{recorded}</p>}
        </div>
        <p className="inspections-holds">{holds.map(({ title: hold }) => hold).join('; ')}</p>
        <Button as="word" small onPress={() => setOpen(!open)} label={`${open ? 'Fold' : 'Show'}: ${title}`}>
          {open ? 'fold' : 'show'}
        </Button>
      </div>
      {open ? (
        <>
          <RowActs row={row} main={false} />
          <Details row={row} />
        </>
      ) : null}
    </li>
  );
}

/** Those after the next, in the order of the way. */
export function Coming({ rows }: { readonly rows: readonly InspectionRow[] }) {
  if (rows.length === 0) return null;
  return (
    <section aria-labelledby="inspections-coming">
      <h2 id="inspections-coming">After that</h2>
      <ul>
        {rows.map((row) => (
          <Row key={keyOf(row)} row={row} />
        ))}
      </ul>
    </section>
  );
}
