import { useState } from 'react';
import type { PaperRow } from '../../../core/desk/contract/answers.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { Mark } from '../../kit/Mark.tsx';
import { perform } from '../../state/doing.ts';
import { addressOf } from '../../state/place.ts';
import { NotApplicableSlip } from './NotApplicableSlip.tsx';
import { listInWords } from './state-words.ts';

function NeededFor({ row }: { readonly row: PaperRow }) {
  const open = row.needFor.filter((each) => each.open).map(({ title }) => title);
  if (open.length === 0) return null;
  const said = open.length > 2 ? [...open.slice(0, 2), `${open.length - 2} more`] : open;
  return <p className="small pencil">Asked for by: {listInWords(said)}</p>;
}

function Brought({ row: { broughtBy, state } }: { readonly row: PaperRow }) {
  if (broughtBy === undefined) return <p>No errand here brings it: it comes from you, or from whoever makes it.</p>;
  const { errand, title, office, earliest } = broughtBy;
  return (
    <p>
      {state === 'awaited' ? 'On its way: ' : 'Brought by '}
      <a href={addressOf('errand', errand)}>{title}</a>, {office}
      {earliest === undefined
        ? ''
        : state === 'awaited'
          ? `; expected by ${dayInWords(earliest)}`
          : `; ${dayInWords(earliest)} at the earliest`}
    </p>
  );
}

/** A paper the way asks for that is not here yet: an open card, with the errand that brings it. */
export function WantedCard({ row }: { readonly row: PaperRow }) {
  const [asking, ask] = useState(false);
  const applies = row.state !== "doesn't apply";
  return (
    <article className="papers-card papers-wanted">
      <header>
        <h3 className="slab">{row.title}</h3>
        <Mark word={row.state} />
      </header>
      {row.subject === undefined ? null : <p className="small">{row.subject}</p>}
      {applies ? <Brought row={row} /> : null}
      <NeededFor row={row} />
      <p className="papers-acts">
        <a href={addressOf('table', 'as', row.kind, ...(row.subject === undefined ? [] : [row.subject]))}>
          I have it: lay it on the table
        </a>
        {applies ? (
          <Button as="word" small onPress={() => ask(true)} label={`${row.title} doesn't apply here`}>
            Doesn’t apply here
          </Button>
        ) : (
          <Button
            as="word"
            small
            onPress={() => void perform('applies-again', { paper: row.kind }, { say: `${row.title} applies again.` })}
          >
            It applies after all
          </Button>
        )}
      </p>
      <NotApplicableSlip paper={row.kind} title={row.title} open={asking} onClose={() => ask(false)} />
    </article>
  );
}
