import { dayInWords } from '../../../core/vocabulary/days.ts';
import { port } from '../../client/port.ts';
import { Button } from '../../kit/Button.tsx';
import { addressOf } from '../../state/place.ts';
import { Box, type PartProps } from './CardParts.tsx';
import { sizeInWords } from './state-words.ts';

export function HoldersBox({ paper: { holders, copies } }: PartProps) {
  if (holders.length + copies.length === 0) return null;
  return (
    <Box title="Who holds copies">
      <ul className="paper-list">
        {holders.map(({ handover, to, how, day, copies: count, surrendered }) => (
          <li key={handover}>
            {to}, since {dayInWords(day)} ({how}
            {count > 1 ? `, ${count} copies` : ''}){surrendered ? '; the original was left there' : ''}
          </li>
        ))}
        {copies.map(({ place, count, note }) => (
          <li key={place}>
            {place}
            {count > 1 ? `, ${count} copies` : ''} {note === undefined ? null : <span className="small">{note}</span>}
          </li>
        ))}
      </ul>
    </Box>
  );
}

/** The very bytes that came in, to be saved as they are. */
export function OriginalsBox({ paper: { originals, notes } }: PartProps) {
  if (originals.length + notes.length === 0) return null;
  return (
    <Box title="As it came in">
      <ul className="paper-list">
        {originals.map(({ name, ticket, bytes }) => (
          <li key={ticket}>
            <a href={port.address(ticket, 'save')} download={name}>
              Save {name}
            </a>{' '}
            <span className="small pencil">{sizeInWords(bytes)}, the very bytes</span>
          </li>
        ))}
        {notes.map((note) => (
          <li key={note} className="small">
            {note}
          </li>
        ))}
      </ul>
    </Box>
  );
}

/** "revision C", its number, both, or that it has none. */
function calledBy({ number, revision }: PartProps['paper']['editions'][number]) {
  const named = revision === undefined ? '' : `revision ${revision}`;
  if (number === '') return named === '' ? 'no number' : named;
  return (
    <>
      {named === '' ? '' : `${named}, `}
      <span className="mono">{number}</span>
    </>
  );
}

export function EditionsBox({ paper: { paper, edition, editions } }: PartProps) {
  if (editions.length < 2) return null;
  return (
    <Box title="Editions, in the order they came">
      <ol className="paper-editions">
        {editions.map((each, at) => (
          <li key={each.edition} aria-current={each.edition === edition ? 'true' : undefined}>
            <a href={addressOf('papers', paper, each.edition)}>
              {at + 1}. {calledBy(each)}
              {each.issued === '' ? '' : `, ${each.issued}`}
            </a>{' '}
            <span className="small pencil">
              {each.current ? 'counts' : ''}
              {each.edition === edition ? `${each.current ? ', ' : ''}shown here` : ''}
            </span>
          </li>
        ))}
      </ol>
    </Box>
  );
}

export interface GiveBoxProps extends PartProps {
  readonly onBlackOut: () => void;
  readonly onSmaller: () => void;
}

/** Copies to give away: less on them, or fewer bytes. Neither changes the paper. */
export function GiveBox({ paper: { pages, originals, sealed }, onBlackOut, onSmaller }: GiveBoxProps) {
  if (pages.length === 0) return null;
  return (
    <Box title="A copy to give away">
      <p className="paper-give">
        {originals.length === 0 ? null : (
          <Button as="word" small onPress={onBlackOut}>
            Black out places
          </Button>
        )}
        {sealed ? (
          <span className="small pencil">It carries a seal: its file is never pressed.</span>
        ) : (
          <Button as="word" small onPress={onSmaller}>
            Make a smaller one
          </Button>
        )}
      </p>
    </Box>
  );
}
