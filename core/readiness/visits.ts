import type { Day } from '../vocabulary/days.ts';
import type { CameBack } from '../vocabulary/finding.ts';
import type { SubjectId, Visit } from '../vocabulary/lot.ts';
import type { Errand, KindId } from '../vocabulary/practice.ts';
import { poolOf, stands } from './current.ts';
import { verdictOf } from './inspection-result.ts';
import type { Standpoint } from './standpoint.ts';

/** Visits made by the day, oldest first; a planned one is none yet. */
export function visitsMade(at: Standpoint, errand: Errand, subject: SubjectId | undefined): readonly Visit[] {
  const visits = at.index.visitsOf.get(errand.id);
  if (visits === undefined) return [];
  return visits.filter(
    (visit) =>
      visit.day <= at.day &&
      visit.state !== 'planned' &&
      (errand.each === undefined || subject === undefined || visit.subject === subject),
  );
}

/** Somebody came and left the errand with a word; who found the door shut or called it off said nothing of it. */
function decided({ state, outcome }: Visit): boolean {
  return (
    state === 'settled' &&
    outcome !== 'partial' &&
    outcome !== 'no access' &&
    outcome !== 'cancelled' &&
    outcome !== 'turned away'
  );
}

/**
 * Of visits, oldest first, those whose comments still count: what a later visit settled is closed by it; corrections
 * that came with the pass itself stay open until answered.
 */
export function stillCounting(visits: readonly Visit[]): readonly Visit[] {
  const last = visits.findLastIndex(decided);
  return last < 0 ? visits : visits.slice(last);
}

/** What a visit counts for: an inspection made, one approved, or nothing (nobody got in, or it was called off). */
function countsAs(errand: Errand, visit: Visit): 'approved' | 'made' | 'nothing' {
  switch (visit.outcome) {
    case 'pass':
    case 'pass with corrections':
    case 'partial':
    case 'letter in lieu':
      return 'approved';
    case 'fail':
      return 'made';
    case 'no access':
    case 'cancelled':
    case 'turned away':
      return 'nothing';
    case undefined:
      if (visit.state !== 'settled') return 'nothing';
      return errand.inspection ? 'made' : 'approved';
  }
}

/** How a visit brought the errand back: turned away, they never had it; a failed inspection sends nothing back. */
export function broughtBack({ outcome }: Visit): CameBack {
  if (outcome === 'turned away') return outcome;
  return outcome === 'fail' ? 'not passed' : 'sent back';
}

/** Every going to the counter was turned away (or called off): they never took a paper, nor a fee. */
export function neverTaken(at: Standpoint, errand: Errand, subject: SubjectId | undefined): boolean {
  const gone = visitsMade(at, errand, subject).filter(({ outcome }) => outcome !== 'cancelled');
  return gone.length > 0 && gone.every(({ outcome }) => outcome === 'turned away');
}

/** The office came out (or stamped its renewal) and this settles the errand. */
export function settles(errand: Errand, visit: Visit): boolean {
  if (visit.state !== 'settled') return false;
  switch (visit.outcome) {
    case 'pass':
    case 'pass with corrections':
    case 'letter in lieu':
      return true;
    case 'partial':
    case 'fail':
    case 'no access':
    case 'cancelled':
    case 'turned away':
      return false;
    case undefined:
      return !errand.inspection;
  }
}

/** Issue dates of result papers in hand: who keeps the result and forgets to note the visit loses nothing. */
function resultDays(at: Standpoint, errand: Errand, since: 'inspection' | 'approved inspection'): readonly Day[] {
  if (!errand.inspection) return [];
  return errand.yields.flatMap((kind) =>
    poolOf(at, kind, undefined).flatMap((entry) => {
      const { issued } = entry.edition;
      if (issued === undefined || !stands(at, entry)) return [];
      return since === 'inspection' || verdictOf(at, errand, entry) === 'passed' ? [issued] : [];
    }),
  );
}

/** The last day on which an idle clock of this kind started anew, if it ever did. */
export function lastRestart(
  at: Standpoint,
  kind: KindId,
  since: 'inspection' | 'approved inspection',
): Day | undefined {
  let last: Day | undefined;
  for (const errand of at.rules.restarters.get(kind) ?? []) {
    const days = visitsMade(at, errand, undefined).flatMap((visit) => {
      const counts = countsAs(errand, visit);
      return counts === 'approved' || (counts === 'made' && since === 'inspection') ? [visit.day] : [];
    });
    for (const day of [...days, ...resultDays(at, errand, since)]) {
      if (last === undefined || day > last) last = day;
    }
  }
  return last;
}
