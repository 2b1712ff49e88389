import { Fragment } from 'react';
import { Button } from '../../kit/Button.tsx';
import type { Offer } from './offers.ts';
import { pointAt } from './table-state.ts';

export interface SuggestedProps {
  /** Nothing is shown where nothing was read, or where it is taken already. */
  readonly offer: Offer | undefined;
  /** @param said another of the values it could be. */
  readonly onTake: (offer: Offer, said?: string) => void;
}

const trust = { sure: 'Read', likely: 'Read, look at it', guess: 'Perhaps' } as const;

/** A suggestion beside its field: read off the page, never filled in by itself. */
export function Suggested({ offer, onTake }: SuggestedProps) {
  if (offer === undefined || offer.taken) return null;
  const { value, title } = offer;
  const { page, place, words, sureness, doubts, because, otherwise } = value;
  return (
    <div className={`table-suggested small ${sureness}`}>
      <p>
        {trust[sureness]}: <strong>{words}</strong>{' '}
        <Button as="word" small onPress={() => onTake(offer)} label={`Take it: ${words}, ${title}`}>
          take it
        </Button>
        {' · '}
        <Button
          as="word"
          small
          onPress={() => pointAt({ page, place })}
          label={`page ${page + 1}, where ${words} stands`}
        >
          page {page + 1}
        </Button>
      </p>
      {because === undefined && doubts.length === 0 ? null : (
        <p className="pencil">{[because === undefined ? '' : `“${because}”`, ...doubts].filter(Boolean).join(' ')}</p>
      )}
      {otherwise.length === 0 ? null : (
        <p>
          or{' '}
          {otherwise.slice(0, 3).map((other, at) => (
            <Fragment key={other.said}>
              {at === 0 ? '' : ', '}
              <Button
                as="word"
                small
                onPress={() => onTake(offer, other.said)}
                label={`Take it: ${other.words}, ${title}`}
              >
                {other.words}
              </Button>
            </Fragment>
          ))}
        </p>
      )}
    </div>
  );
}
