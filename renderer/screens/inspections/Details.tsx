import type { ReactNode } from 'react';
import type { InspectionRow } from '../../../core/desk/contract/screen-answers.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { outcomeInWords } from '../../../core/vocabulary/in-words.ts';
import { Mark } from '../../kit/Mark.tsx';
import { addressOf } from '../../state/place.ts';
import { feeInWords } from './words.ts';

function Cell({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

function Lines({ name, items }: { readonly name: string; readonly items: readonly string[] }) {
  if (items.length === 0) return null;
  return (
    <Cell name={name}>
      <ul>
        {items.map((item) => (
          <li key={item}>{item}</li>
        ))}
      </ul>
    </Cell>
  );
}

/** The papers they look at, each with how it stands. */
function Papers({ carry }: Pick<InspectionRow, 'carry'>) {
  if (carry.length === 0) return null;
  return (
    <Cell name="they look at">
      <ul className="inspections-papers">
        {carry.map(({ need, kind, title, state, edition, good }) => (
          <li key={`${need} ${kind} ${title}`}>
            {edition === undefined ? title : <a href={addressOf('papers', edition)}>{title}</a>}{' '}
            <Mark word={state} say={state === 'in hand' && !good ? 'in hand, look at it' : undefined} />
          </li>
        ))}
      </ul>
    </Cell>
  );
}

function Holds({ holds }: Pick<InspectionRow, 'holds'>) {
  return (
    <Cell name="it holds">
      {holds.length === 0 ? (
        'Nothing by a rule on file. Leave open whatever they have not seen.'
      ) : (
        <ul>
          {holds.map(({ hold, title, say }) => (
            <li key={hold}>
              <strong>{title}</strong> {say}
            </li>
          ))}
        </ul>
      )}
    </Cell>
  );
}

/** They came before: what they left it with each time. */
function Before({ visits }: Pick<InspectionRow, 'visits'>) {
  if (visits.length === 0) return null;
  return (
    <Cell name="so far">
      <ul>
        {visits.map(({ visit, day, words, note }) => (
          <li key={visit}>
            {words} {dayInWords(day)}
            {note === undefined ? '' : `: ${note}`}
          </li>
        ))}
      </ul>
    </Cell>
  );
}

/** All there is to know before they come. */
export function Details({ row }: { readonly row: InspectionRow }) {
  const { office, booking, outcomes, yields, restarts, caution, inspection } = row;
  const phone =
    office.phone === undefined ? undefined : (
      <a href={`tel:${office.phone.replaceAll(/[^\d+]/g, '')}`}>{office.phone}</a>
    );
  return (
    <div className="inspections-details">
      <dl>
        <Lines name="ready on the site" items={row.onSite} />
        <Lines name="have with you" items={row.bring} />
        <Papers carry={row.carry} />
        <Holds holds={row.holds} />
        <Cell name="they come from">
          {office.title} {phone} {office.hours === undefined ? null : <span className="pencil">{office.hours}</span>}
        </Cell>
        {booking === undefined && office.appointment === undefined ? null : (
          <Cell name="bookings">
            {booking === undefined
              ? office.appointment
              : `${booking.ahead} ahead${booking.until === undefined ? '' : `, taken until ${booking.until}`}`}
          </Cell>
        )}
        <Cell name="fee">{feeInWords(row)}</Cell>
        {office.appear === undefined ? null : <Cell name="who must be there">{office.appear}</Cell>}
        <Lines name="ask them" items={row.ask} />
        {inspection ? <Cell name="they leave it with">{outcomes.map(outcomeInWords).join(', ')}</Cell> : null}
        {yields.length === 0 ? null : <Cell name="it brings">{yields.map(({ title }) => title).join(', ')}</Cell>}
        {restarts.length === 0 ? null : <Cell name="starts anew">the idle clock of: {restarts.join(', ')}</Cell>}
        <Before visits={row.visits} />
      </dl>
      {caution === undefined ? null : <p className="inspections-caution">{caution}</p>}
    </div>
  );
}
