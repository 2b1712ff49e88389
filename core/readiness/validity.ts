import type { Day } from '../vocabulary/days.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import type { ClockReading, Validity } from '../vocabulary/finding.ts';
import type { Edition } from '../vocabulary/lot.ts';
import type { Clock, PaperKind } from '../vocabulary/practice.ts';
import { isOpenDay, openUntil, plusDays } from './calendar.ts';
import { type ClockEnd, endOf, startOf, stoppedInTime, type Through } from './clocks.ts';
import { conditionAt } from './condition-at.ts';
import { currentEntry, linkedTo } from './current.ts';
import { extended, type Grant, grantsOf } from './extensions.ts';
import type { Entry } from './lot-index.ts';
import { standingAmong } from './standing.ts';
import { type Asked, happenedOn, indexLot, kindOf, type Standpoint } from './standpoint.ts';
import { dayWords } from './words.ts';

/** A validity and whether it leans on one that is still being worked out (two papers each good while the other is). */
interface Draft {
  readonly validity: Validity;
  /** Depth of the outermost unfinished edition it leans on; Infinity where it leans on none. */
  readonly leans: number;
}

interface Work {
  readonly at: Standpoint;
  /** Periods being followed one after the other: one that leads back to itself carries nothing on. */
  readonly chain: readonly string[];
  readonly known: Map<string, Validity>;
  readonly open: Map<string, number>;
}

function isDate(through: Through): through is Day {
  return through !== 'for good' && through !== 'unknown' && through !== 'ended';
}

/** The clocks that run: those of the rule, and a printed last day even where the rule forgot to ask for one. */
function clocksOf(kind: PaperKind | undefined, edition: Edition): readonly Clock[] {
  const clocks = kind?.clocks ?? [];
  const silent = clocks.every((clock) => clock.sort !== 'stated' && clock.sort !== 'for good');
  return silent && edition.goodThrough !== undefined ? [...clocks, { sort: 'stated', label: 'printed date' }] : clocks;
}

interface Reading {
  readonly clock: Clock;
  readonly end: ClockEnd;
}

function withGrants(
  at: Standpoint,
  reading: Reading,
  given: { kind: PaperKind | undefined; grants: readonly Grant[] },
): ClockEnd {
  const { end } = reading;
  const from = end.extendsFrom;
  const grants = from === undefined ? [] : given.grants.filter((grant) => grant.asked >= from);
  const printed = grants.at(-1)?.printed;
  if (grants.length === 0 || (!isDate(end.through) && printed === undefined)) return end;
  const through = isDate(end.through)
    ? extended(at, end.through, { rule: given.kind?.extension, grants })
    : (printed ?? end.through);
  return { ...end, through, why: `${end.why}, extended ${grants.length === 1 ? 'once' : `${grants.length} times`}` };
}

/** Whether an unsure clock runs at all makes no difference while it is good; once it would have ended, nobody knows. */
function weighed(at: Standpoint, reading: Reading, end: ClockEnd): ClockReading | undefined {
  const { clock } = reading;
  const runs = clock.when === undefined ? true : conditionAt(at, clock.when);
  if (runs === false) return undefined;
  if (stoppedInTime(at, clock, end.through)) {
    return { label: clock.label, through: 'for good', why: 'it was kept in time' };
  }
  const unsure = runs === 'unknown' && (end.through === 'ended' || (isDate(end.through) && end.through < at.day));
  return { label: clock.label, through: unsure ? 'unknown' : end.through, why: end.why };
}

function combined(at: Standpoint, clocks: readonly ClockReading[]): Pick<Validity, 'good' | 'through'> {
  let first: Day | undefined;
  let unknown = false;
  for (const { through } of clocks) {
    if (through === 'ended') return { good: false, through: 'ended' };
    if (through === 'unknown') unknown = true;
    else if (through !== 'for good' && (first === undefined || through < first)) first = through;
  }
  if (first !== undefined && first < at.day) return { good: false, through: first };
  if (unknown) return { good: 'unknown', through: 'unknown' };
  return { good: true, through: first ?? 'for good' };
}

function earliestEnd(readings: readonly Reading[]): Day | undefined {
  let first: Day | undefined;
  for (const { end } of readings) {
    if (end.extendsFrom !== undefined && isDate(end.through) && (first === undefined || end.through < first))
      first = end.through;
  }
  return first;
}

/** The extensions that move one of its clocks, oldest first. */
export function extendersOf(at: Standpoint, entry: Entry): readonly Entry[] {
  const kind = kindOf(at, entry.paper.kind);
  // A clock that runs with another paper is never extended itself: how long that one is good makes no difference here.
  const other = (): ClockEnd => ({ through: 'for good', why: '' });
  const readings = clocksOf(kind, entry.edition).map((clock) => ({ clock, end: endOf(clock, { at, entry, other }) }));
  return grantsOf(at, entry, { rule: kind?.extension, end: earliestEnd(readings) })
    .filter(({ asked }) => readings.some(({ end }) => end.extendsFrom !== undefined && asked >= end.extendsFrom))
    .map((grant) => grant.entry);
}

/** The next period that lends this one its last day, where one does. */
export function carrierOf(at: Standpoint, entry: Entry): Entry | undefined {
  const { clocks, through } = validityAt(at, entry);
  const own = combined(at, clocks).through;
  if (own === through || !isDate(own)) return undefined;
  return linkedTo(at, entry, 'continues').find((next) => {
    const start = startOf(next);
    const follows = start !== undefined && start <= plusDays(own, 1) && next.paper.kind === entry.paper.kind;
    return follows && validityAt(at, next).through === through;
  });
}

function askBy(
  at: Standpoint,
  kind: PaperKind | undefined,
  given: { grants: readonly Grant[]; through: Through },
): Day | undefined {
  const rule = kind?.extension;
  if (rule === undefined || given.grants.length >= rule.times || !isDate(given.through)) return undefined;
  if (given.through < at.day && rule.askedBeforeLapse) return undefined;
  if (rule.after !== undefined && happenedOn(at, rule.after) === undefined) return undefined;
  return openUntil(given.through, at.rules.calendar);
}

function endedBy(at: Standpoint, entry: Entry): ClockReading | undefined {
  const standing = standingAmong(entry.edition, ['revoked', 'closed'], at.day);
  if (standing === undefined) return undefined;
  return { label: standing.word, through: 'ended', why: `${standing.word} on ${dayWords(standing.day)}` };
}

function make(work: Work, entry: Entry, depth: number): Draft {
  const { at } = work;
  const kind = kindOf(at, entry.paper.kind);
  let leans = Number.POSITIVE_INFINITY;
  const other = (wanted: string): ClockEnd => {
    const target = currentEntry(at, { kind: wanted, subject: entry.paper.subject });
    if (target === undefined) return { through: 'ended', why: 'it is not in hand' };
    const draft = draftOf({ ...work, chain: [] }, target, depth + 1);
    leans = Math.min(leans, draft.leans);
    return { through: draft.validity.through, why: whyOf(draft.validity) };
  };
  const readings = clocksOf(kind, entry.edition).map((clock) => ({ clock, end: endOf(clock, { at, entry, other }) }));
  const grants = grantsOf(at, entry, { rule: kind?.extension, end: earliestEnd(readings) });
  const ended = endedBy(at, entry);
  const clocks = readings.flatMap((reading) => weighed(at, reading, withGrants(at, reading, { kind, grants })) ?? []);
  if (ended !== undefined) clocks.unshift(ended);
  const own = combined(at, clocks);
  const next = continued(work, entry, { through: own.through, depth });
  leans = Math.min(leans, next?.leans ?? leans);
  const { good, through } = next?.validity ?? own;
  const validity: Validity = {
    good,
    through,
    safeThrough:
      isDate(through) && !isOpenDay(through, at.rules.calendar) ? openUntil(through, at.rules.calendar) : undefined,
    clocks,
    askBy: askBy(at, kind, { grants, through: own.through }),
  };
  return { validity, leans };
}

/** A next period that begins no later than the day after this one ends carries it on. */
function continued(work: Work, entry: Entry, given: { through: Through; depth: number }): Draft | undefined {
  const { through } = given;
  if (!isDate(through)) return undefined;
  const chain = [...work.chain, entry.edition.id];
  for (const next of linkedTo(work.at, entry, 'continues')) {
    const start = startOf(next);
    if (start === undefined || start > plusDays(through, 1) || next.paper.kind !== entry.paper.kind) continue;
    if (chain.includes(next.edition.id)) continue;
    const draft = draftOf({ ...work, chain }, next, given.depth + 1);
    const later = draft.validity.through;
    if (later === 'for good' || (isDate(later) && later > through)) return draft;
  }
  return undefined;
}

/** Why it ends when it ends: the reason of the clock that decides. */
export function whyOf(validity: Validity): string {
  return validity.clocks.find((clock) => clock.through === validity.through)?.why ?? 'it has no end of its own';
}

const forGood: Validity = { good: true, through: 'for good', clocks: [] };

function draftOf(work: Work, entry: Entry, depth: number): Draft {
  const { id } = entry.edition;
  const known = work.known.get(id);
  if (known !== undefined) return { validity: known, leans: Number.POSITIVE_INFINITY };
  const open = work.open.get(id);
  if (open !== undefined) return { validity: forGood, leans: open };
  work.open.set(id, depth);
  const draft = make(work, entry, depth);
  work.open.delete(id);
  const closed = draft.leans >= depth && work.chain.length === 0;
  if (closed) work.known.set(id, draft.validity);
  return closed ? { validity: draft.validity, leans: Number.POSITIVE_INFINITY } : draft;
}

const known = new WeakMap<Standpoint, Map<string, Validity>>();

export function validityAt(at: Standpoint, entry: Entry): Validity {
  const remembered = known.get(at) ?? new Map<string, Validity>();
  known.set(at, remembered);
  return draftOf({ at, chain: [], known: remembered, open: new Map() }, entry, 0).validity;
}

/**
 * All clocks of an edition taken together on a day: the earliest end wins, the last good day is inclusive,
 * and a date that is needed and not known makes it 'unknown', never silently good.
 * @throws LotfileError 'not found' where the edition is not one of this lot.
 */
export function validityOf(edition: Edition, asked: Asked): Validity {
  const at = indexLot(asked);
  const entry = at.index.entries.get(edition.id);
  if (entry !== undefined) return validityAt(at, entry);
  throw new LotfileError('not found', 'This edition is not one of the lot.', {
    about: edition.id,
    next: 'Read the lot again and ask about an edition it holds.',
  });
}
