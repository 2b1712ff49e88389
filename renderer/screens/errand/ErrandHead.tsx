import type { ReactNode } from 'react';
import type { WayAnswer } from '../../../core/desk/contract/answers.ts';
import { comesOut } from '../../../core/vocabulary/coming-out.ts';
import { dayInWords, dayWithWeekday, spanInWords } from '../../../core/vocabulary/days.ts';
import type { ErrandReading } from '../../../core/vocabulary/finding.ts';
import { outcomeInWords, withThemInWords, wordsOfErrand } from '../../../core/vocabulary/in-words.ts';
import { type FeeDue, moneyInWords } from '../../../core/vocabulary/money.ts';
import type { Errand } from '../../../core/vocabulary/practice.ts';
import { type ComesFirst, comesFirst } from '../../../core/vocabulary/verdict.ts';
import { Button } from '../../kit/Button.tsx';
import { addressOf } from '../../state/place.ts';
import { savePaper } from '../../state/writing.ts';
import { errandTitle, type Sight } from './errand-model.ts';

function feeOf({ fee, feeNote }: FeeDue): string | undefined {
  const money = fee === undefined ? undefined : fee === 0 ? 'none' : moneyInWords(fee);
  const words = [money, feeNote].filter((part) => part !== undefined);
  return words.length === 0 ? undefined : words.join(', ');
}

function takesOf({ takes }: Errand): string | undefined {
  if (takes === undefined) return undefined;
  const [from, to] = [spanInWords(takes.from), spanInWords(takes.to)];
  // "15 to 25 working days" rather than the unit twice.
  const [count = '', ...unit] = from.split(' ');
  if (from === to) return from;
  const [, ...unitTo] = to.split(' ');
  const one = (words: readonly string[]): string => words.join(' ').replace(/s$/, '');
  return one(unit) === one(unitTo) ? `${count} to ${to}` : `${from} to ${to}`;
}

function phoneLink(phone: string): ReactNode {
  return <a href={`tel:${phone.replaceAll(/[^\d+]/g, '')}`}>{phone}</a>;
}

function Cell({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  if (children === undefined || children === '') return null;
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

function listed(items: readonly string[]): ReactNode {
  if (items.length === 0) return undefined;
  return (
    <ul>
      {items.map((item) => (
        <li key={item}>{item}</li>
      ))}
    </ul>
  );
}

/** What goes for the day they come out: kit, booking, what coming again costs, how they may leave it, what waits. */
function Coming({ sight }: Pick<HeadProps, 'sight'>) {
  const { errand, booking, booked, due, outcomes, holds, reading } = sight.answer;
  const again = errand.againFee === undefined || due.again ? undefined : moneyInWords(errand.againFee);
  const until = booking?.until === undefined ? '' : `, ${booking.until}`;
  const waits = reading.firstDay !== undefined;
  return (
    <>
      <Cell name="ready on the site">{listed(errand.onSite ?? [])}</Cell>
      <Cell name="booking">
        {booked === undefined
          ? booking === undefined
            ? undefined
            : `${dayWithWeekday(booking.soonest)} at the earliest${waits ? '' : `: book it by ${dayWithWeekday(booking.by)}${until}`}`
          : `booked for ${dayWithWeekday(booked.day)}`}
      </Cell>
      <Cell name="coming a second time">{again === undefined ? undefined : `costs ${again}`}</Cell>
      <Cell name="they leave it with">{errand.inspection ? outcomes.map(outcomeInWords).join(', ') : undefined}</Cell>
      <Cell name="it holds">
        {holds.length === 0 ? undefined : (
          <ul>
            {holds.map(({ hold, title }) => (
              <li key={hold}>
                {title}{' '}
                <Button
                  as="word"
                  small
                  onPress={() => void savePaper({ sort: 'hold-sheet', hold })}
                  label={`Save the hold sheet: ${title}`}
                >
                  hold sheet
                </Button>
              </li>
            ))}
          </ul>
        )}
      </Cell>
    </>
  );
}

/** One thing that comes first: the errand that brings it with the day it should be back, or what is one's own to do. */
function First({ row, sight, way }: { readonly row: ComesFirst } & Pick<HeadProps, 'sight' | 'way'>) {
  const { errand, remedy, say, maybe } = row;
  const before = way?.stops.find((one) => one.errand === errand);
  const day = before?.done ?? before?.earliest;
  const back = day === undefined ? undefined : `back by about ${dayInWords(day)}`;
  const told = errand === undefined ? [say] : [before?.office, back, maybe ? 'if it applies' : undefined];
  return (
    <li>
      {errand === undefined ? (
        remedy.say
      ) : (
        <a href={addressOf('errand', errand)}>{before?.title ?? errandTitle(sight.practice, errand)}</a>
      )}{' '}
      <span className="pencil small">{told.filter((part) => part !== undefined).join(', ')}</span>
    </li>
  );
}

/** What comes first, as the verdict counts it; what was sent back waits for it no less. */
function Waits({ sight, way }: Pick<HeadProps, 'sight' | 'way'>) {
  const { reading } = sight.answer;
  const rows = reading.state === "can't go yet" || reading.state === 'sent back' ? comesFirst(reading) : [];
  if (rows.length === 0) return null;
  return (
    <section className="errand-waits" data-place="comes first" tabIndex={-1}>
      <h2>First</h2>
      <ul>
        {rows.map((row) => (
          <First key={row.errand ?? row.say} row={row} sight={sight} way={way} />
        ))}
      </ul>
      {reading.firstDay === undefined ? null : (
        <p>
          then this one, on <strong>{dayWithWeekday(reading.firstDay)}</strong> at the earliest.
        </p>
      )}
    </section>
  );
}

/** "since Tue 23 Feb 2027; their answer: due by Mon 8 Mar 2027", under a heading that says the rest. */
function liesInWords({ withThem, day }: ErrandReading): string | undefined {
  return withThem === undefined ? undefined : withThemInWords(withThem, day).replace(/^with them /, '');
}

interface HeadProps {
  readonly sight: Sight;
  readonly way: WayAnswer | undefined;
}

/** The office as one goes there, what to take along and ask, what to mind, and what waits before it. */
export function ErrandHead({ sight, way }: HeadProps) {
  const { errand, office, reading } = sight.answer;
  const { hours, intakeUntil } = office;
  const out = comesOut(errand);
  const own = office.sort === 'owner';
  const open = [hours, intakeUntil === undefined ? undefined : `papers in until ${intakeUntil}`];
  return (
    <div className="errand-head">
      <dl className="errand-office">
        <Cell name={own ? 'done by' : out ? 'they come from' : 'go to'}>
          <strong>{office.title}</strong>
          {office.street === undefined ? null : <span>{office.street}</span>}
          {office.phone === undefined ? null : <span>{phoneLink(office.phone)}</span>}
          {open.filter((part) => part !== undefined).join('; ')}
        </Cell>
        <Cell name="with them">{liesInWords(reading)}</Cell>
        <Cell name="read for">{dayWithWeekday(reading.day)}</Cell>
        <Cell name={out ? 'have with you' : 'take along'}>{listed(errand.bring)}</Cell>
        <Coming sight={sight} />
        <Cell name={own ? 'look for' : 'ask them'}>{listed(errand.ask)}</Cell>
        <Cell name={out ? 'who must be there' : 'who must appear'}>{errand.appear ?? office.appear}</Cell>
        <Cell name="appointment">{errand.appointment ?? office.appointment}</Cell>
        <Cell name="fee">{own ? undefined : (feeOf(sight.answer.due) ?? 'not known: ask')}</Cell>
        <Cell name="payable to">{[office.payee, office.pays].filter((part) => part !== undefined).join('; ')}</Cell>
        <Cell name="it takes">{takesOf(errand)}</Cell>
        <Cell name="on whose word">{listed(wordsOfErrand(errand))}</Cell>
      </dl>
      {errand.caution === undefined ? null : (
        <p className="errand-caution">
          <strong>Mind:</strong> {errand.caution}
        </p>
      )}
      <Waits sight={sight} way={way} />
    </div>
  );
}
