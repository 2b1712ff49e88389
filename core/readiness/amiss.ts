import { type Day, isDay } from '../vocabulary/days.ts';
import type { Finding, FindingSort } from '../vocabulary/finding.ts';
import type { ErrandId } from '../vocabulary/practice.ts';
import { plusDays } from './calendar.ts';
import { lapsingDays } from './paper-state.ts';
import { asFarAsKnown, byWeight, type Problem } from './problem.ts';
import { agreementCases } from './read-agreements.ts';
import { findingOf } from './remedy.ts';
import { saysTheSame } from './stale.ts';
import { type Asked, indexLot, kindOf, type Standpoint } from './standpoint.ts';
import { validityAt } from './validity.ts';
import { isOver } from './way/dating.ts';
import type { Node } from './way/graph.ts';
import { datedGraphAt } from './way/read-way.ts';

/** Something wrong with papers in the lot that the next errands would stumble over. */
export interface Amiss {
  readonly finding: Finding;
  /** Errands with it on their way, in practice order; none where papers speak against each other and no errand is near. */
  readonly errands: readonly ErrandId[];
  /** The last good day, where it lapses. */
  readonly by?: Day | undefined;
  /** Putting it right can be begun today: it is the owner's own to do, or its errand can be gone on. */
  readonly now: boolean;
}

/** All of these are cured by the same act: a newer edition of the paper. */
const renewed: ReadonlySet<FindingSort> = new Set<FindingSort>([
  'lapsed',
  'lapsing',
  'too old',
  'stale',
  'refused by office',
  'replaced',
]);

/** In hand on a later day only: waited for, not put right. */
const waitedFor: ReadonlySet<FindingSort> = new Set<FindingSort>(['not issued yet', 'too early']);

function spoilt({ sort, edition }: Problem): boolean {
  return edition !== undefined && renewed.has(sort);
}

/** Gone on within the month, or held up by nothing but papers that have to be made or got anew. */
function isNear(at: Standpoint, node: Node): boolean {
  if (isOver(node) || node.examined.state === 'left with them') return false;
  const earliest = datedGraphAt(at).dates.get(node.key)?.earliest;
  if (earliest !== undefined && earliest <= plusDays(at.day, lapsingDays)) return true;
  const { needs, ahead } = node.examined;
  const unmet = needs.filter((draft) => draft.unmet && draft.reading.applies === true);
  const waits = ahead.some(({ weight }) => weight === 'refused' || weight === 'questioned');
  return !waits && unmet.length > 0 && unmet.every(({ problems }) => problems.some(spoilt));
}

/**
 * Turned away over a paper in hand, or over one the owner makes; what has lapsed or gone stale in any case, and a date
 * that only has to be read off the paper.
 */
function counts(at: Standpoint, problem: Problem): boolean {
  const { weight, sort, edition, kind } = problem;
  if (sort === 'date unknown') return edition !== undefined;
  if (weight === 'questioned') return sort === 'lapsed' || sort === 'stale';
  if (weight !== 'refused' || waitedFor.has(sort)) return false;
  if (edition !== undefined) return true;
  return sort === 'missing' && kind !== undefined && (at.rules.yielders.get(kind) ?? []).length === 0;
}

function keyOf({ kind, subject, sort, say }: Problem): string {
  return `${kind ?? ''} ${subject ?? ''} ${renewed.has(sort) ? 'renew' : `${sort} ${say}`}`;
}

interface Found {
  readonly problem: Problem;
  readonly errands: readonly ErrandId[];
}

/** What the next errands would stumble over, each paper's fault once: the heaviest word on it, and all its errands. */
function onNextErrands(at: Standpoint): readonly Found[] {
  const found = new Map<string, Found>();
  for (const node of datedGraphAt(at).graph.nodes) {
    if (!isNear(at, node)) continue;
    const problems = node.examined.needs
      .flatMap((draft) => draft.problems)
      .map((problem) => asFarAsKnown(node.examined.applies, problem));
    for (const problem of problems) {
      if (!counts(at, problem)) continue;
      const key = keyOf(problem);
      const before = found.get(key);
      const heavier = before === undefined || byWeight(problem, before.problem) < 0 ? problem : before.problem;
      found.set(key, { problem: heavier, errands: [...(before?.errands ?? []), node.one.errand.id] });
    }
  }
  return [...found.values()];
}

/** Papers that speak against each other, save where a stale paper's own fault says it already. */
function disagreements(at: Standpoint, told: readonly Found[]): readonly Found[] {
  const stale = told.flatMap(({ problem }) => {
    const entry = problem.sort === 'stale' ? at.index.entries.get(problem.edition ?? '') : undefined;
    return entry === undefined ? [] : [entry];
  });
  return agreementCases(at).flatMap(({ agreement, problem }) => {
    const heavy = problem.weight === 'refused' || problem.weight === 'questioned';
    if (!heavy || stale.some((entry) => saysTheSame(at, agreement, entry))) return [];
    return [{ problem, errands: [] }];
  });
}

/** Whether putting it right can begin today. */
function canBegin(at: Standpoint, { remedy, kind }: Finding): boolean {
  if (remedy.errand === undefined) {
    const from = kind === undefined ? undefined : kindOf(at, kind)?.from;
    return from === undefined || at.practice.offices[from]?.sort === 'owner';
  }
  const { graph } = datedGraphAt(at);
  return graph.nodes.some(
    ({ one, examined }) =>
      one.errand.id === remedy.errand && (examined.state === 'can go' || examined.state === 'sent back'),
  );
}

function lastGoodDay(at: Standpoint, { sort, edition }: Finding): Day | undefined {
  const lapses = sort === 'lapsed' || sort === 'lapsing';
  const entry = lapses && edition !== undefined ? at.index.entries.get(edition) : undefined;
  const through = entry === undefined ? undefined : validityAt(at, entry).through;
  return through !== undefined && isDay(through) ? through : undefined;
}

/**
 * What has to be put right about papers before the next errands: everything an office would turn away, everything
 * lapsed or stale that an errand within the month asks for, and papers that speak against each other.
 * Heaviest first, what can be begun today before the rest; each fault once.
 */
export function readAmiss(asked: Asked): readonly Amiss[] {
  const at = indexLot(asked);
  const near = onNextErrands(at);
  return [...near, ...disagreements(at, near)]
    .map(({ problem, errands }): Amiss => {
      const finding = findingOf(at, problem);
      const by = lastGoodDay(at, finding);
      return { finding, errands: [...new Set(errands)], by, now: canBegin(at, finding) };
    })
    .toSorted((a, b) => byWeight(a.finding, b.finding) || Number(b.now) - Number(a.now));
}
