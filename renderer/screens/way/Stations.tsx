import { type KeyboardEvent, useRef, useState } from 'react';
import { StationNote } from './StationNote.tsx';
import type { PlacedStation, SheetPlan } from './sheet-plan.ts';
import { shapeOf, stationInWords } from './words.ts';

export interface StationsProps {
  readonly plan: SheetPlan;
  readonly focused: string | undefined;
  readonly onFocus: (key: string | undefined) => void;
}

/** Which station a key leads to, of those in order; undefined where the key is none of ours. */
function led(key: string, at: number, count: number): number | undefined {
  switch (key) {
    case 'ArrowRight':
      return Math.min(at + 1, count - 1);
    case 'ArrowLeft':
      return Math.max(at - 1, 0);
    case 'Home':
      return 0;
    case 'End':
      return count - 1;
    default:
      return undefined;
  }
}

/** Where the tab key enters the row: what can be gone on, else the first. */
function entry(stations: readonly PlacedStation[]): string | undefined {
  const can = stations.find(({ station }) => station.state === 'sent back' || station.state === 'can go');
  return (can ?? stations[0])?.station.key;
}

/** The numbered stations as buttons: one stop for the tab key, arrows within; pressed, one opens its note in place. */
export function Stations({ plan, focused, onFocus }: StationsProps) {
  const list = useRef<HTMLOListElement>(null);
  const [entered, enter] = useState<string>();
  const [open, setOpen] = useState<string>();
  const { stations } = plan;
  const stop = stations.some(({ station }) => station.key === entered) ? entered : entry(stations);
  const walk = (key: string | undefined): void => {
    if (key === undefined) return;
    enter(key);
    setOpen(undefined);
    list.current?.querySelector<HTMLButtonElement>(`[data-key="${CSS.escape(key)}"]`)?.focus();
  };
  const keys = (event: KeyboardEvent): void => {
    if (event.key === 'Escape' && open !== undefined) {
      walk(open);
      event.stopPropagation();
    }
    if (!(event.target instanceof HTMLButtonElement) || !event.target.matches('[data-key]')) return;
    const to = led(
      event.key,
      stations.findIndex(({ station }) => station.key === focused),
      stations.length,
    );
    if (to === undefined) return;
    event.preventDefault();
    walk(stations[to]?.station.key);
  };
  return (
    <ol className="way-stations" ref={list} aria-label="Errands along the way" onKeyDown={keys}>
      {stations.map(({ station, x }) => (
        <li key={station.key}>
          <button
            type="button"
            data-key={station.key}
            className={`way-station ${shapeOf(station)}`}
            style={{ left: `${x / 16}rem`, top: `${plan.numbers / 16}rem` }}
            tabIndex={station.key === stop ? 0 : -1}
            aria-expanded={open === station.key}
            aria-label={stationInWords(station)}
            onClick={() => setOpen(open === station.key ? undefined : station.key)}
            onFocus={() => {
              enter(station.key);
              onFocus(station.key);
            }}
            onMouseEnter={() => onFocus(station.key)}
            onMouseLeave={() => onFocus(open)}
          >
            <span>{station.number}</span>
          </button>
          {open === station.key ? (
            <StationNote
              station={station}
              all={stations}
              x={x}
              plan={plan}
              onWalk={walk}
              onClose={() => walk(station.key)}
            />
          ) : null}
        </li>
      ))}
    </ol>
  );
}
