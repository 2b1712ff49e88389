import type { Day } from '../vocabulary/days.ts';
import type { Finding } from '../vocabulary/finding.ts';
import type { ErrandId, EventId } from '../vocabulary/practice.ts';
import { holdFindings, holdWaitsFor } from './befores.ts';
import { appliesAt } from './condition-at.ts';
import { findingOf } from './remedy.ts';
import { type Asked, happenedOn, indexLot } from './standpoint.ts';

/** Something that can't be undone, and what keeps it shut. */
export interface HoldReading {
  readonly hold: string;
  readonly title: string;
  readonly say: string;
  readonly event: EventId;
  /** 'unknown' where the hold hangs on an unanswered question: it stays shut. */
  readonly applies: true | 'unknown';
  /** Errands that still have to be settled; none left means the hold is open. */
  readonly waitsFor: readonly ErrandId[];
  /** The day the event was noted, where it was. */
  readonly happened?: Day | undefined;
  readonly findings: readonly Finding[];
}

/** Every hold of this lot: what may not be done yet, and what was done too early. */
export function readHolds(asked: Asked): readonly HoldReading[] {
  const at = indexLot(asked);
  return Object.values(asked.practice.holds).flatMap((hold) => {
    const applies = appliesAt(at, hold.when);
    if (applies === false) return [];
    return [
      {
        hold: hold.id,
        title: hold.title,
        say: hold.say,
        event: hold.event,
        applies,
        waitsFor: holdWaitsFor(at, hold).map((errand) => errand.id),
        happened: happenedOn(at, hold.event),
        findings: holdFindings(at, hold).map((problem) => findingOf(at, problem)),
      },
    ];
  });
}
