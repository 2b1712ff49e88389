import type { ReactNode } from 'react';
import type { PagesAnswer } from '../../../core/desk/contract/screen-answers.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { FigureNotes } from '../../kit/FigureNotes.tsx';
import { MoreTime } from '../../kit/MoreTimeSlip.tsx';
import { addressOf } from '../../state/place.ts';
import { hasRevisionFact } from './correction.ts';
import type { PointedAt } from './reader-pages.ts';
import { listInWords } from './state-words.ts';

export interface PartProps {
  readonly paper: PagesAnswer;
}

/** One box of the record card, left out where it would be empty. */
export function Box({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  return (
    <section className="paper-box">
      <h3>{title}</h3>
      {children}
    </section>
  );
}

interface LineProps {
  readonly name: string;
  readonly children: ReactNode;
}

export function CardLine({ name, children }: LineProps) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

const none = <span className="pencil">not noted</span>;

/** What is printed on it: numbers, dates, and each fact with the page it stands on. */
export function PrintedBox({ paper, onPoint }: PartProps & { readonly onPoint: (at: PointedAt) => void }) {
  const { number, issued, effective, goodThrough, issuer, office, revision, received, facts } = paper;
  return (
    <Box title="What stands on it">
      <dl className="paper-lines">
        <CardLine name="Number">{number === '' ? none : <span className="mono">{number}</span>}</CardLine>
        <CardLine name="Issued">{issued === undefined ? none : dayInWords(issued)}</CardLine>
        {effective === undefined ? null : <CardLine name="In force from">{dayInWords(effective)}</CardLine>}
        <CardLine name="Good through">
          {goodThrough === undefined ? <span className="pencil">none stated</span> : dayInWords(goodThrough)}
        </CardLine>
        <CardLine name="Issued by">{issuer === '' ? office.title : issuer}</CardLine>
        {revision === '' || hasRevisionFact(paper) ? null : <CardLine name="Revision">{revision}</CardLine>}
        {facts.map(({ fact, title, words, page, place }) => (
          <CardLine key={fact} name={title}>
            {words === '' ? none : words}{' '}
            {page === undefined ? null : (
              <Button
                as="word"
                small
                onPress={() => onPoint({ page, place })}
                label={`Show ${title} on page ${page + 1}`}
              >
                page {page + 1}
              </Button>
            )}
          </CardLine>
        ))}
        <CardLine name="Came in">{dayInWords(received)}</CardLine>
      </dl>
    </Box>
  );
}

/** Sums done again with the numbers on it. */
export function FiguresBox({ paper: { figures } }: PartProps) {
  if (figures.length === 0) return null;
  return (
    <Box title="Its numbers, reckoned again">
      <FigureNotes rows={figures} />
    </Box>
  );
}

/** Every clock with its own end, and all of them together. */
export function ClocksBox({ paper: { clocks, validity, validityWords, extendable, edition, title } }: PartProps) {
  return (
    <Box title="How long it is good">
      <p>
        <strong>{`${validityWords[0]?.toUpperCase()}${validityWords.slice(1)}.`}</strong>
        {validity.askBy === undefined ? null : ` Ask to extend it by ${dayInWords(validity.askBy)}.`}
      </p>
      {extendable ? (
        <p>
          <MoreTime paper={edition} title={title} />
        </p>
      ) : null}
      {clocks.length === 0 ? null : (
        <ul className="paper-list">
          {clocks.map(({ label, words, why }) => (
            <li key={label}>
              {words}
              <p className="small pencil">{why}</p>
            </li>
          ))}
        </ul>
      )}
    </Box>
  );
}

export function MarksBox({ paper: { marks, marksAsked, sealed } }: PartProps) {
  const absent = marksAsked.filter((mark) => !marks.includes(mark));
  if (marks.length + absent.length === 0 && !sealed) return null;
  return (
    <Box title="Marks">
      <ul className="paper-marks">
        {sealed ? <li className="has">carries a digital signature</li> : null}
        {marks.map((mark) => (
          <li key={mark} className="has">
            {mark}
          </li>
        ))}
        {absent.map((mark) => (
          <li key={mark} className="lacks">
            {mark} <span className="small pencil">asked for, not noted</span>
          </li>
        ))}
      </ul>
    </Box>
  );
}

export function StandingsBox({ paper: { standings } }: PartProps) {
  if (standings.length === 0) return null;
  return (
    <Box title="What offices did with it">
      <ul className="paper-list">
        {standings.map(({ office, officeTitle, word, day, note }) => (
          <li key={`${office} ${word} ${day}`}>
            {dayInWords(day)}: {officeTitle} {word} it.{' '}
            {note === undefined ? null : <span className="small">{note}</span>}
          </li>
        ))}
      </ul>
    </Box>
  );
}

const linkSays = {
  to: {
    replaces: 'It replaces',
    amends: 'It amends',
    extends: 'It extends',
    continues: 'It carries on',
    'made from': 'It was made from',
  },
  from: {
    replaces: 'Replaced by',
    amends: 'Amended by',
    extends: 'Extended by',
    continues: 'Carried on by',
    'made from': 'Made from it:',
  },
} as const;

export function LinksBox({ paper: { links } }: PartProps) {
  if (links.length === 0) return null;
  return (
    <Box title="Hangs together with">
      <ul className="paper-list">
        {links.map(({ direction, word, edition, title, number, issued }) => (
          <li key={`${direction} ${word} ${edition}`}>
            {linkSays[direction][word]} <a href={addressOf('papers', edition, edition)}>{title}</a>
            {number === '' ? null : ', number '}
            {number === '' ? null : <span className="mono">{number}</span>}
            {issued === '' ? '' : `, issued ${issued}`}
          </li>
        ))}
      </ul>
    </Box>
  );
}

export function AskedBox({ paper: { needFor } }: PartProps) {
  if (needFor.length === 0) return null;
  const settled = needFor.filter(({ open }) => !open).map(({ title }) => title);
  return (
    <Box title="Asked for by">
      <ul className="paper-list">
        {needFor
          .filter(({ open }) => open)
          .map(({ errand, title }) => (
            <li key={errand}>
              <a href={addressOf('errand', errand)}>{title}</a>
            </li>
          ))}
        {settled.length === 0 ? null : <li className="small pencil">Settled: {listInWords(settled)}</li>}
      </ul>
    </Box>
  );
}
