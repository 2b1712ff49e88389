import { type Day, earliest } from '../vocabulary/days.ts';
import type { Extension } from '../vocabulary/practice.ts';
import { plusSpan, times } from './calendar.ts';
import { linkedTo, replacerOf } from './current.ts';
import type { Entry } from './lot-index.ts';
import { happenedOn, type Standpoint } from './standpoint.ts';
import { visitsMade } from './visits.ts';

/** An extension that counts. */
export interface Grant {
  readonly entry: Entry;
  readonly asked: Day;
  /** The new last day where the extension prints one: the office's own word goes before our sum. */
  readonly printed: Day | undefined;
}

function grantedOn(entry: Entry): Day {
  return entry.edition.issued ?? entry.edition.received;
}

/** The day it was asked for: the visit that asked, or where none is noted the day it was granted. */
function askedOn(at: Standpoint, grant: Entry, after: Day | undefined): Day {
  const granted = grantedOn(grant);
  const visits = (at.rules.yielders.get(grant.paper.kind) ?? [])
    .flatMap((errand) => visitsMade(at, errand, undefined))
    .map((visit) => visit.day)
    .filter((day) => day <= granted && (after === undefined || day > after));
  return visits.reduce((first, day) => earliest(first, day), granted);
}

function mayCount(at: Standpoint, rule: Extension | undefined, grant: Entry): boolean {
  if (replacerOf(at, grant) !== undefined) return false;
  if (rule === undefined) return grant.edition.goodThrough !== undefined;
  if (grant.paper.kind !== rule.by) return false;
  if (rule.after === undefined) return true;
  const day = happenedOn(at, rule.after);
  return day !== undefined && day <= grantedOn(grant);
}

/**
 * The extensions of an edition that count, oldest first: of the right kind, after the event that allows them,
 * asked for in time, no more than the rule grants.
 * @param end the last good day before any extension.
 */
export function grantsOf(
  at: Standpoint,
  entry: Entry,
  given: { rule: Extension | undefined; end: Day | undefined },
): Grant[] {
  const { rule, end } = given;
  const grants: Grant[] = [];
  let through = end;
  let last: Day | undefined = entry.edition.issued;
  for (const grant of linkedTo(at, entry, 'extends')) {
    if (!mayCount(at, rule, grant) || (rule !== undefined && grants.length >= rule.times)) continue;
    const asked = askedOn(at, grant, last);
    if (rule?.askedBeforeLapse === true && through !== undefined && asked > through) continue;
    grants.push({ entry: grant, asked, printed: grant.edition.goodThrough });
    last = grantedOn(grant);
    through = end === undefined ? grant.edition.goodThrough : extended(at, end, { rule, grants });
  }
  return grants;
}

/** The new last day: the date the last extension prints, or the original end plus all of them at once. */
export function extended(
  at: Standpoint,
  end: Day,
  given: { rule: Extension | undefined; grants: readonly Grant[] },
): Day {
  const last = given.grants.at(-1);
  if (last === undefined) return end;
  if (last.printed !== undefined) return last.printed > end ? last.printed : end;
  if (given.rule === undefined) return end;
  return plusSpan(end, times(given.rule.adds, given.grants.length), at.rules.calendar);
}
