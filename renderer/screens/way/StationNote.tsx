import { type ReactNode, useEffect, useRef } from 'react';
import { dayWithWeekday } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { Mark } from '../../kit/Mark.tsx';
import { addressOf } from '../../state/place.ts';
import { lateInWords } from './lives.ts';
import type { Station } from './model.ts';
import type { PlacedStation, SheetPlan } from './sheet-plan.ts';
import { feeInWords, spareInWords, tooSoonInWords, whenInWords } from './words.ts';

export interface StationNoteProps {
  readonly station: Station;
  readonly all: readonly PlacedStation[];
  readonly x: number;
  readonly plan: SheetPlan;
  readonly onWalk: (key: string) => void;
  readonly onClose: () => void;
}

const wide = 352;

function Fact({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return (
    <>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </>
  );
}

function WaitsFor({ station, all, onWalk }: Pick<StationNoteProps, 'station' | 'all' | 'onWalk'>) {
  const before = all.filter(({ station: other }) => station.waitsFor.includes(other.key));
  if (before.length === 0) return null;
  return (
    <Fact name="waits for">
      <ul>
        {before.map(({ station: other }) => (
          <li key={other.key}>
            <Button as="word" small onPress={() => onWalk(other.key)}>
              {other.number} {other.title}
            </Button>
          </li>
        ))}
      </ul>
    </Fact>
  );
}

function Lapses({ station, plan }: Pick<StationNoteProps, 'station' | 'plan'>) {
  const late = plan.lives.filter(({ life }) => life.lateFor.includes(station));
  const soon = tooSoonInWords(station.row);
  if (late.length === 0 && soon === undefined) return null;
  return (
    <div className="way-warned">
      {late.map(({ life }) => (
        <p key={life.key}>{lateInWords(life)}.</p>
      ))}
      {soon === undefined ? null : <p>{soon}</p>}
    </div>
  );
}

/** A small note at a station: how it stands, when, what it waits for, and the way to its errand. */
export function StationNote({ station, all, x, plan, onWalk, onClose }: StationNoteProps) {
  const box = useRef<HTMLElement>(null);
  useEffect(() => box.current?.scrollIntoView({ block: 'nearest', inline: 'nearest' }), []);
  const { row, title, state, number, stretch } = station;
  const left = Math.max(4, Math.min(x - 24, plan.width - wide - 8));
  return (
    <section
      className="way-note settle"
      ref={box}
      aria-label={title}
      style={{ left: `${left / 16}rem`, top: `${(plan.baseline + 12) / 16}rem` }}
    >
      <p className="way-note-head">
        <strong className="slab">
          {number} {title}
        </strong>
        <Button as="word" small onPress={onClose} label={`Close the note on ${title}`}>
          close
        </Button>
      </p>
      <p className="small">
        <Mark word={state} /> {row.office}
        {stretch === '' ? '' : `, ${stretch}`}
      </p>
      <dl>
        <Fact name={state === 'settled' ? 'settled' : state === 'left with them' ? 'left' : 'earliest'}>
          {station.dated === 'surely' ? dayWithWeekday(station.at) : whenInWords(station)}
        </Fact>
        {row.done === undefined || state === 'settled' ? null : <Fact name="back by">{dayWithWeekday(row.done)}</Fact>}
        {row.spare === undefined ? null : <Fact name="spare">{spareInWords(row.spare)}</Fact>}
        {state === 'settled' ? null : <Fact name="fee">{feeInWords(row.fee)}</Fact>}
        <WaitsFor station={station} all={all} onWalk={onWalk} />
      </dl>
      <Lapses station={station} plan={plan} />
      <p>
        <a href={addressOf('errand', row.errand, ...(row.subject === undefined ? [] : [row.subject]))}>
          Open this errand
        </a>
      </p>
    </section>
  );
}
