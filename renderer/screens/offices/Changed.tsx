import type { ChangedRow, UnseenRow } from '../../../core/desk/contract/lapse-answers.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { Mark } from '../../kit/Mark.tsx';
import { addressOf } from '../../state/place.ts';

type Copies = Pick<ChangedRow, 'holders' | 'makers'> & { readonly old: boolean };

function CopyLines({ holders, makers, old }: Copies) {
  return (
    <ul className="office-rows">
      {holders.map(({ handover, to, day, how, copies, holds }) => (
        <li key={handover}>
          {old ? <Mark word="replaced" say="holds the old one" /> : <span className="small pencil">holds</span>}
          <span>
            {to}
            <span className="small pencil">
              {' '}
              {holds}
              {copies > 1 ? `, ${copies} copies` : ''}
            </span>
          </span>
          <span className="small pencil">
            since {dayInWords(day)}, {how}
          </span>
        </li>
      ))}
      {makers.map(({ paper: made, title: what, number, office, from }) => (
        <li key={made}>
          {old ? <Mark word="replaced" say="made from it" /> : <span className="small pencil">made from it</span>}
          <span>
            {office}:{' '}
            <a href={addressOf('papers', made)}>
              {what} {number}
            </a>
          </span>
          <span className="small pencil">from {from}</span>
        </li>
      ))}
    </ul>
  );
}

/** A newer edition waits for an office: what counts until then, and whom to tell once it is approved. */
function Pending({ row }: { readonly row: ChangedRow }) {
  const { paper, title, now, pending } = row;
  if (pending === undefined) return null;
  const { next, dated, office, tell, makers } = pending;
  return (
    <section className="office" aria-label={`${title}, ${next}, not approved yet`}>
      <header>
        <h2>
          Not approved yet: <a href={addressOf('papers', paper)}>{title}</a>, {next} of {dayInWords(dated)}
        </h2>
      </header>
      <p>
        {office} has not approved it: <strong>{now} counts on the site.</strong> Once it is approved, tell:
      </p>
      <CopyLines holders={tell} makers={makers} old={false} />
    </section>
  );
}

/** A paper changed: who still works by the old one, and what was made from it. */
export function Changed({ row }: { readonly row: ChangedRow }) {
  const { paper, title, now, since, holders, makers } = row;
  return (
    <>
      <Pending row={row} />
      {holders.length + makers.length === 0 ? null : (
        <section className="office" aria-label={`${title} changed`}>
          <header>
            <h2>
              Tell them: <a href={addressOf('papers', paper)}>{title}</a>, {now}
            </h2>
            <p className="small pencil">counts since {dayInWords(since)}</p>
          </header>
          <CopyLines holders={holders} makers={makers} old />
        </section>
      )}
    </>
  );
}

/** In hand, asked for by this office, and never given to it as it is now. */
export function Unseen({ row }: { readonly row: UnseenRow }) {
  const { paper, title, number, errand, errandTitle, holds } = row;
  return (
    <li>
      <Mark word="not asked for" say="not seen by them" />
      <span>
        <a href={addressOf('papers', paper)}>{title}</a>
        {number === '' ? '' : `, ${number}`}
        {holds === undefined ? null : <span className="small office-old"> they hold {holds}</span>}
      </span>
      <span className="small pencil">
        for <a href={addressOf('errand', errand)}>{errandTitle}</a>
      </span>
    </li>
  );
}
