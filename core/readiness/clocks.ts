import { type Day, spanInWords } from '../vocabulary/days.ts';
import type { Clock, KindId } from '../vocabulary/practice.ts';
import { plusDays, plusSpan } from './calendar.ts';
import type { Entry } from './lot-index.ts';
import { happenedOn, kindOf, type Standpoint } from './standpoint.ts';
import { lastRestart } from './visits.ts';
import { factOf, wholeOf } from './whole-edition.ts';
import { dayWords } from './words.ts';

/** Last good day of one clock, inclusive. */
export type Through = Day | 'for good' | 'unknown' | 'ended';

export interface ClockEnd {
  readonly through: Through;
  readonly why: string;
  /** From when an extension counts for this clock; undefined where none can move it. */
  readonly extendsFrom?: Day | undefined;
}

export interface ClockCase {
  readonly at: Standpoint;
  readonly entry: Entry;
  /** How long the named other paper is good: asked only by `while`. */
  readonly other: (kind: KindId) => ClockEnd;
}

/** Cover and permits run from the day they take effect; where none is printed, from issue. */
export function startOf(entry: Entry): Day | undefined {
  return entry.edition.effective ?? entry.edition.issued;
}

const undated: ClockEnd = { through: 'unknown', why: 'the day it was issued is not known' };

function titleOf(at: Standpoint, kind: KindId): string {
  return kindOf(at, kind)?.title ?? kind;
}

function eventTitle(at: Standpoint, event: string): string {
  return (Object.hasOwn(at.practice.events, event) ? at.practice.events[event]?.title : undefined) ?? event;
}

/** The printed last day; where the clock names a fact (one line of a certificate), the day in that fact. */
function statedEnd({ at, entry }: ClockCase, clock: Clock & { sort: 'stated' }): ClockEnd {
  const fact = clock.fact === undefined ? undefined : factOf(at, entry, clock.fact);
  const stated =
    clock.fact === undefined ? wholeOf(at, entry).goodThrough : fact?.sort === 'day' ? fact.value : undefined;
  const extendsFrom = startOf(entry) ?? entry.edition.received;
  if (stated === undefined) return { through: 'unknown', why: 'the date printed on it is not known', extendsFrom };
  return { through: stated, why: `${dayWords(stated)} is printed on it`, extendsFrom };
}

function spanEnd({ at, entry }: ClockCase, clock: Clock & { sort: 'lasts' | 'start_by' | 'finish_by' }): ClockEnd {
  const start = startOf(entry);
  if (start === undefined) {
    const settled = clock.sort !== 'lasts' && happenedOn(at, clock.unless) !== undefined;
    return settled
      ? {
          through: 'unknown',
          why: `the day it was issued is not known, so nobody can say whether "${eventTitle(at, clock.unless)}" came in time`,
        }
      : undated;
  }
  const end = plusSpan(start, clock.span, at.rules.calendar);
  const words = `${spanInWords(clock.span)} from ${dayWords(start)}`;
  if (clock.sort === 'lasts') return { through: end, why: words, extendsFrom: start };
  return { through: end, why: `${words}, unless "${eventTitle(at, clock.unless)}" comes first`, extendsFrom: start };
}

/** Whether the event that stops a `start_by` or `finish_by` clock came by its (extended) end. */
export function stoppedInTime(at: Standpoint, clock: Clock, end: Through): boolean {
  if (clock.sort !== 'start_by' && clock.sort !== 'finish_by') return false;
  const day = happenedOn(at, clock.unless);
  return day !== undefined && end !== 'unknown' && end !== 'ended' && (end === 'for good' || day <= end);
}

function idleEnd({ at, entry }: ClockCase, clock: Clock & { sort: 'idle' }): ClockEnd {
  const issued = startOf(entry);
  const restart = lastRestart(at, entry.paper.kind, clock.since);
  const base = restart !== undefined && (issued === undefined || restart > issued) ? restart : issued;
  if (base === undefined) return undated;
  const since = base === issued ? 'its start' : `the last ${clock.since}`;
  return {
    through: plusSpan(base, clock.span, at.rules.calendar),
    why: `${spanInWords(clock.span)} from ${since} on ${dayWords(base)}`,
    extendsFrom: base,
  };
}

function untilEnd({ at, entry }: ClockCase, clock: Clock & { sort: 'until' }): ClockEnd {
  const title = eventTitle(at, clock.event);
  const start = startOf(entry);
  const day = happenedOn(at, clock.event, start);
  if (day === undefined) return { through: 'for good', why: `until "${title}", which is not noted` };
  if (start === undefined)
    return { through: 'unknown', why: `"${title}" is noted, and the day it was issued is not known` };
  if (clock.plus !== undefined) {
    const why = `${spanInWords(clock.plus)} after "${title}" on ${dayWords(day)}`;
    return { through: plusSpan(day, clock.plus, at.rules.calendar), why };
  }
  return { through: plusDays(day, -1), why: `"${title}" on ${dayWords(day)} ended it` };
}

/** Reads one clock before any extension. */
export function endOf(clock: Clock, given: ClockCase): ClockEnd {
  switch (clock.sort) {
    case 'stated':
      return statedEnd(given, clock);
    case 'lasts':
    case 'start_by':
    case 'finish_by':
      return spanEnd(given, clock);
    case 'idle':
      return idleEnd(given, clock);
    case 'while': {
      const end = given.other(clock.kind);
      return { through: end.through, why: `as long as "${titleOf(given.at, clock.kind)}" is good: ${end.why}` };
    }
    case 'until':
      return untilEnd(given, clock);
    case 'for good':
      return { through: 'for good', why: 'it has no end of its own' };
  }
}
