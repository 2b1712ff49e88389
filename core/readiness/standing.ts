import type { Day } from '../vocabulary/days.ts';
import type { Edition, Standing, StandingWord } from '../vocabulary/lot.ts';
import type { OfficeId } from '../vocabulary/practice.ts';

/** Kept and issued by then: what comes later is not there yet. */
export function isThere(edition: Edition, day: Day | undefined): boolean {
  if (day === undefined) return true;
  return edition.received <= day && (edition.issued === undefined || edition.issued <= day);
}

/** What this office last decided by the day; "received" decides nothing. Of two on one day the later noted counts. */
export function lastStanding(edition: Edition, office: OfficeId, day: Day | undefined): Standing | undefined {
  let last: Standing | undefined;
  for (const standing of edition.standings) {
    if (standing.office !== office || standing.word === 'received') continue;
    if (day !== undefined && standing.day > day) continue;
    if (last === undefined || standing.day >= last.day) last = standing;
  }
  return last;
}

/** An office whose last word by the day is one of these, with that word. */
export function standingAmong(
  edition: Edition,
  words: readonly StandingWord[],
  day: Day | undefined,
): Standing | undefined {
  if (edition.standings.length === 0) return undefined;
  for (const office of new Set(edition.standings.map((standing) => standing.office))) {
    const last = lastStanding(edition, office, day);
    if (last !== undefined && words.includes(last.word)) return last;
  }
  return undefined;
}

/** Refused or revoked by any office, or standing. */
export function decision(edition: Edition, day: Day | undefined): 'turned down' | 'stands' {
  return standingAmong(edition, ['refused', 'revoked'], day) === undefined ? 'stands' : 'turned down';
}

export function isApprovedBy(edition: Edition, office: OfficeId, day: Day | undefined): boolean {
  return lastStanding(edition, office, day)?.word === 'approved';
}
