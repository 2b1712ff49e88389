import type { Day } from '../vocabulary/days.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import type { LotView, SubjectId } from '../vocabulary/lot.ts';
import type { Errand, ErrandId, PaperKind, Practice } from '../vocabulary/practice.ts';
import { indexLotView, type LotIndex } from './lot-index.ts';
import { indexPractice, type PracticeIndex } from './practice-index.ts';

/** What every question is asked of: this practice, this lot, this day. Nothing here reads a clock. */
export interface Asked {
  readonly practice: Practice;
  readonly lot: LotView;
  readonly day: Day;
}

/** The same with its look-ups. */
export interface Standpoint extends Asked {
  readonly rules: PracticeIndex;
  readonly index: LotIndex;
}

/** An errand and, where it is one per subject, for which. */
export interface ErrandCase {
  readonly errand: Errand;
  readonly subject: SubjectId | undefined;
}

const lots = new WeakMap<LotView, LotIndex>();
const standpoints = new WeakMap<LotView, WeakMap<Practice, Map<Day, Standpoint>>>();

/** A window that stays open for weeks asks about many days; the oldest are forgotten. */
const daysRemembered = 16;

function lotIndexOf(lot: LotView): LotIndex {
  const known = lots.get(lot);
  if (known !== undefined) return known;
  const made = indexLotView(lot);
  lots.set(lot, made);
  return made;
}

function daysOf(asked: Asked): Map<Day, Standpoint> {
  const practices = standpoints.get(asked.lot) ?? new WeakMap<Practice, Map<Day, Standpoint>>();
  standpoints.set(asked.lot, practices);
  const days = practices.get(asked.practice) ?? new Map<Day, Standpoint>();
  practices.set(asked.practice, days);
  return days;
}

/** Indexes a lot once per (lot, practice, day). The three must not be changed in place afterwards. */
export function indexLot(asked: Asked): Standpoint {
  const days = daysOf(asked);
  const known = days.get(asked.day);
  if (known !== undefined) return known;
  const oldest = days.keys().next().value;
  if (oldest !== undefined && days.size >= daysRemembered) days.delete(oldest);
  const made: Standpoint = {
    practice: asked.practice,
    lot: asked.lot,
    day: asked.day,
    rules: indexPractice(asked.practice),
    index: lotIndexOf(asked.lot),
  };
  days.set(asked.day, made);
  return made;
}

/** Remembers an answer per standpoint and key. */
export function remembered<T>(make: (at: Standpoint, key: string) => T): (at: Standpoint, key: string) => T {
  const known = new WeakMap<Standpoint, Map<string, T>>();
  return (at, key) => {
    const answers = known.get(at) ?? new Map<string, T>();
    known.set(at, answers);
    const answer = answers.get(key);
    if (answer !== undefined) return answer;
    const made = make(at, key);
    answers.set(key, made);
    return made;
  };
}

export function errandOf(at: Standpoint, id: ErrandId): Errand {
  const errand = Object.hasOwn(at.practice.errands, id) ? at.practice.errands[id] : undefined;
  if (errand !== undefined) return errand;
  throw new LotfileError('not found', `Local practice knows no errand "${id}".`, {
    about: id,
    next: 'Choose one of the errands on the way, or add it to the local practice.',
  });
}

export function kindOf(at: Standpoint, id: string): PaperKind | undefined {
  return Object.hasOwn(at.practice.papers, id) ? at.practice.papers[id] : undefined;
}

/** First day of an event on or before the day asked about. */
export function happenedOn(at: Standpoint, event: string, from?: Day): Day | undefined {
  return at.index.eventDays.get(event)?.find((day) => day <= at.day && (from === undefined || day >= from));
}
