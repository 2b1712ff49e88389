import { type Day, daysBetween, isDay } from '../vocabulary/days.ts';
import type { Finding } from '../vocabulary/finding.ts';
import { asFarAsKnown, byWeight, type Problem } from './problem.ts';
import { findingOf } from './remedy.ts';
import { type Asked, indexLot, type Standpoint } from './standpoint.ts';
import { validityAt } from './validity.ts';
import { isOver } from './way/dating.ts';
import type { Node } from './way/graph.ts';
import { datedGraphAt } from './way/read-way.ts';

/** A paper that has lapsed and that an errand still to come asks for. */
export interface Lapsed {
  readonly finding: Finding;
  /** Its last good day; undefined where it ended without one: it was closed, or something happened. */
  readonly on?: Day | undefined;
}

interface Found {
  readonly problem: Problem;
  /** The first day on which an errand can use it. */
  readonly from: Day | undefined;
}

function isAhead(node: Node): boolean {
  return !isOver(node) && node.examined.state !== 'left with them';
}

function lapsedOn(at: Standpoint, edition: string | undefined): Day | undefined {
  const entry = edition === undefined ? undefined : at.index.entries.get(edition);
  const through = entry === undefined ? undefined : validityAt(at, entry).through;
  return through !== undefined && isDay(through) ? through : undefined;
}

/** Got anew today it would have lapsed again by the day it is used: a ticket of two weeks, half a year ahead. */
function canWait(at: Standpoint, { problem, from }: Found): boolean {
  const issued = at.index.entries.get(problem.edition ?? '')?.edition.issued;
  const on = lapsedOn(at, problem.edition);
  if (issued === undefined || on === undefined || from === undefined) return false;
  return daysBetween(issued, on) < daysBetween(at.day, from);
}

/** What errands ahead find lapsed: each paper once, where it weighs most, with the first day it is used. */
function foundLapsed(at: Standpoint): readonly Found[] {
  const { graph, dates } = datedGraphAt(at);
  const once = new Map<string, Found>();
  for (const node of graph.nodes.filter(isAhead)) {
    const from = dates.get(node.key)?.earliest;
    const problems = node.examined.needs.flatMap((draft) => draft.problems);
    for (const problem of problems.map((each) => asFarAsKnown(node.examined.applies, each))) {
      if (problem.sort !== 'lapsed' || problem.edition === undefined) continue;
      if (at.index.entries.get(problem.edition)?.paper.notApplicable !== undefined) continue;
      const told = once.get(problem.edition);
      const heavier = told === undefined || byWeight(problem, told.problem) < 0 ? problem : told.problem;
      const first = told?.from !== undefined && (from === undefined || told.from < from) ? told.from : from;
      once.set(problem.edition, { problem: heavier, from: first });
    }
  }
  return [...once.values()];
}

function tell(at: Standpoint, found: Found): Lapsed {
  const { problem } = found;
  const say = 'Get it anew shortly before; got now, it lapses again.';
  const later: Problem = { ...problem, weight: 'good to know', mend: { do: 'say', say } };
  return { finding: findingOf(at, canWait(at, found) ? later : problem), on: lapsedOn(at, problem.edition) };
}

/**
 * Papers that have lapsed, that nothing took the place of and that some errand still to come needs, however far ahead
 * it lies: heaviest first. What is needed no more, or not by this lot, is not told.
 */
export function readLapsed(asked: Asked): readonly Lapsed[] {
  const at = indexLot(asked);
  return foundLapsed(at)
    .map((found) => tell(at, found))
    .toSorted((a, b) => byWeight(a.finding, b.finding) || (a.on ?? '').localeCompare(b.on ?? ''));
}
