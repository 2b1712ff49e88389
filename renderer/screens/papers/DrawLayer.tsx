import { type PointerEvent, useState } from 'react';
import { inPlace } from '../../kit/in-place.ts';
import { type DrawnPlace, nudged, placeOf, type ShownShare } from './drawn-places.ts';
import { type ReaderPage, shareOf } from './reader-pages.ts';

export interface Drawing {
  readonly places: readonly DrawnPlace[];
  readonly onPlaces: (places: readonly DrawnPlace[]) => void;
}

/** Smaller than this is a slip of the hand. */
const leastShare = 0.004;

function shareAt(event: PointerEvent<HTMLElement>): { x: number; y: number } {
  const box = event.currentTarget.getBoundingClientRect();
  const within = (value: number): number => Math.min(1, Math.max(0, value));
  return { x: within((event.clientX - box.left) / box.width), y: within((event.clientY - box.top) / box.height) };
}

interface Corner {
  readonly x: number;
  readonly y: number;
}

function between(a: Corner, b: Corner): ShownShare {
  return {
    left: Math.min(a.x, b.x),
    top: Math.min(a.y, b.y),
    width: Math.abs(a.x - b.x),
    height: Math.abs(a.y - b.y),
  };
}

const percent = (share: ShownShare) => ({
  left: `${share.left * 100}%`,
  top: `${share.top * 100}%`,
  width: `${share.width * 100}%`,
  height: `${share.height * 100}%`,
});

const steps: Readonly<Record<string, { x: number; y: number }>> = {
  ArrowLeft: { x: -6, y: 0 },
  ArrowRight: { x: 6, y: 0 },
  ArrowUp: { x: 0, y: 6 },
  ArrowDown: { x: 0, y: -6 },
};

interface PlaceProps {
  readonly place: DrawnPlace;
  readonly number: number;
  readonly page: ReaderPage;
  readonly onPlace: (place: DrawnPlace | undefined) => void;
}

/** A place can be moved and sized by keys, so that nobody needs a steady hand. */
function Place({ place, number, page, onPlace }: PlaceProps) {
  const key = (event: React.KeyboardEvent): void => {
    if (event.key === 'Delete' || event.key === 'Backspace') onPlace(undefined);
    else {
      const step = steps[event.key];
      if (step === undefined) return;
      const by = event.shiftKey
        ? { x: 0, y: Math.min(0, step.y), wider: step.x, taller: -step.y }
        : { ...step, wider: 0, taller: 0 };
      onPlace(nudged(place, by, page));
    }
    event.preventDefault();
  };
  return (
    <button
      type="button"
      className="draw-place"
      style={shareOf(place, page)}
      onKeyDown={key}
      onPointerDown={(event) => event.stopPropagation()}
      aria-label={`Place ${number} on page ${place.page + 1}: arrow keys move it, with Shift they size it, Delete takes it away`}
    />
  );
}

/** Laid over a page while places are drawn on it. */
export function DrawLayer({
  drawing,
  page,
  index,
}: {
  readonly drawing: Drawing;
  readonly page: ReaderPage;
  readonly index: number;
}) {
  const { places, onPlaces } = drawing;
  const [from, begin] = useState<Corner>();
  const [to, reach] = useState<Corner>();
  const share = from === undefined || to === undefined ? undefined : between(from, to);
  const end = (): void => {
    if (share !== undefined && share.width > leastShare && share.height > leastShare) {
      onPlaces([...places, { page: index, ...placeOf(share, page) }]);
    }
    begin(undefined);
    reach(undefined);
  };
  const put = (at: number, place: DrawnPlace | undefined): void =>
    onPlaces(places.flatMap((each, n) => (n !== at ? [each] : place === undefined ? [] : [place])));
  return (
    <div
      className="draw-layer"
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        begin(shareAt(event));
      }}
      onPointerMove={(event) => {
        if (from !== undefined) reach(shareAt(event));
      }}
      onPointerUp={end}
      onPointerCancel={end}
    >
      {share === undefined ? null : <span className="draw-place" style={percent(share)} />}
      {inPlace(places).map(({ part, place: at }) =>
        part.page === index ? (
          <Place key={at} place={part} number={at + 1} page={page} onPlace={(next) => put(at, next)} />
        ) : null,
      )}
    </div>
  );
}
