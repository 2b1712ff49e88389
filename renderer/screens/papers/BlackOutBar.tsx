import { useState } from 'react';
import type { PagesAnswer } from '../../../core/desk/contract/screen-answers.ts';
import { Button } from '../../kit/Button.tsx';
import { perform } from '../../state/doing.ts';
import { go } from '../../state/place.ts';
import type { DrawnPlace } from './drawn-places.ts';

export interface BlackOutBarProps {
  readonly paper: PagesAnswer;
  readonly places: readonly DrawnPlace[];
  readonly onPlaces: (places: readonly DrawnPlace[] | undefined) => void;
}

/** Where a place is put that is asked for by the keyboard: a line across the upper third of the first page. */
function firstPlace({ pages }: PagesAnswer, page: number): DrawnPlace {
  const { width = 612, height = 792 } = pages[page] ?? {};
  return { page, x: width * 0.25, y: height * 0.7, width: width * 0.5, height: 18 };
}

/** Says what is being done while places are drawn, and does it. */
export function BlackOutBar({ paper, places, onPlaces }: BlackOutBarProps) {
  const [busy, work] = useState(false);
  const make = async (): Promise<void> => {
    work(true);
    const reply = await perform(
      'black-out',
      { edition: paper.edition, places: places.map((place) => ({ ...place })) },
      {
        long: `Blacking out places of ${paper.title}`,
        say: 'Made a copy to give away. The paper itself stays as it is.',
      },
    );
    work(false);
    if (!reply.ok) return;
    onPlaces(undefined);
    go('papers', reply.answer.paper, reply.answer.edition);
  };
  return (
    <section className="black-out" aria-label="Black out places">
      <p>
        <strong>Draw over what nobody is to read.</strong> A copy is made in which it is gone, letters and picture; that
        copy counts from then on. The paper as it came stays in the lot.
      </p>
      <div className="paper-acts">
        <Button as="stamp" disabled={busy || places.length === 0} onPress={() => void make()}>
          {busy
            ? 'Blacking out ...'
            : places.length === 1
              ? 'Black out one place'
              : `Black out ${places.length} places`}
        </Button>
        <Button disabled={busy} onPress={() => onPlaces([...places, firstPlace(paper, places.at(-1)?.page ?? 0)])}>
          Add a place
        </Button>
        <Button as="word" small disabled={busy} onPress={() => onPlaces(undefined)}>
          Leave it
        </Button>
      </div>
    </section>
  );
}
