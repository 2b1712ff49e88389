import type { NeedReading, PaperState, Weight } from '../vocabulary/finding.ts';
import type { SubjectId } from '../vocabulary/lot.ts';
import type { KindId, Need } from '../vocabulary/practice.ts';
import { absentProblem } from './absent-paper.ts';
import { appliesAt } from './condition-at.ts';
import { currentEntry } from './current.ts';
import type { Entry } from './lot-index.ts';
import { excusedProblem, type NeedCase } from './need-case.ts';
import { paperProblems } from './paper-problems.ts';
import { kindApplies, notApplicable, paperStateOf, stateOfEntry } from './paper-state.ts';
import { heaviest, lighter, type Problem } from './problem.ts';
import type { ErrandCase, Standpoint } from './standpoint.ts';
import { validityAt } from './validity.ts';

/** A need looked into, before its remedies are worded. */
export interface NeedDraft {
  readonly need: Need;
  readonly reading: Omit<NeedReading, 'findings'>;
  readonly problems: readonly Problem[];
  readonly entry: Entry | undefined;
  /** Without a paper that will do: the visit would be for nothing. */
  readonly unmet: boolean;
}

const severity: Readonly<Record<Weight, number>> = { refused: 4, questioned: 3, 'ask first': 2, 'good to know': 1 };

/** Sorts of problem that only another paper (or another day) cures, as opposed to one they may object to. */
const curedByAnother: ReadonlySet<string> = new Set([
  'missing',
  'not issued yet',
  'lapsed',
  'lapsing',
  'too old',
  'stale',
  'unreadable',
  'not approved',
  'refused by office',
  'replaced',
  'too early',
]);

function isUnmet(problem: Problem): boolean {
  return curedByAnother.has(problem.sort) && (problem.weight === 'refused' || problem.weight === 'questioned');
}

function softened(given: NeedCase, problem: Problem): Problem {
  const { need } = given;
  if (need.use === 'bring home' || need.optional) return { ...problem, weight: 'good to know' };
  if (given.applies === true) return problem;
  const sort = problem.sort === 'missing' ? 'may not apply' : problem.sort;
  return { ...problem, sort, weight: lighter(problem.weight, 'ask first') };
}

function byKind(given: NeedCase, kind: KindId): NeedDraft {
  const { at, need, subject, applies } = given;
  const entry = currentEntry(at, { kind, subject, approvedBy: need.approvedBy });
  const excuse = entry === undefined ? notApplicable(at, kind, subject) : undefined;
  const raw =
    excuse !== undefined
      ? [excusedProblem(given, kind, excuse)]
      : entry === undefined
        ? [absentProblem(given, kind)]
        : paperProblems(given, kind, entry);
  const problems = raw.map((problem) => softened(given, problem));
  const binding = !need.optional && need.use !== 'bring home';
  const reading = {
    need: need.id,
    subject,
    applies,
    kind,
    state: stateFor(given, { kind, entry, excused: excuse !== undefined }),
    paper: entry?.paper.id,
    edition: entry?.edition.id,
    validity: entry === undefined ? undefined : validityAt(at, entry),
  };
  return { need, reading, problems, entry, unmet: binding && raw.some(isUnmet) };
}

function stateFor(
  { at, subject }: NeedCase,
  found: { kind: KindId; entry: Entry | undefined; excused: boolean },
): PaperState {
  if (found.excused) return "doesn't apply";
  return found.entry === undefined
    ? stateWithoutApproved(paperStateOf(at, { kind: found.kind, subject }))
    : stateOfEntry(at, found.entry);
}

/** A need of an approved edition isn't met by one in hand that nobody approved. */
function stateWithoutApproved(state: PaperState): PaperState {
  return state === 'in hand' || state === 'lapsing' ? 'not asked for' : state;
}

function weightNumber(draft: NeedDraft): number {
  const weight = heaviest(draft.problems);
  // Among papers that leave the need equally met, the one in hand is the one to talk about.
  const absent = draft.entry === undefined ? 10 : 0;
  return (draft.unmet ? 20 : 0) + absent + (weight === undefined ? 0 : severity[weight]);
}

/** The kind that meets the need best: the first with the least against it. */
export function readNeed(given: NeedCase): NeedDraft | undefined {
  const kinds = given.need.kinds.filter((kind) => kindApplies(given.at, kind));
  let best: NeedDraft | undefined;
  for (const kind of kinds) {
    const draft = byKind(given, kind);
    if (best === undefined || weightNumber(draft) < weightNumber(best)) best = draft;
    if (draft.problems.length === 0) break;
  }
  return best;
}

/** For whom a need is asked: the errand's own subject, or everyone on site where it is asked for each. */
function subjectsFor(at: Standpoint, { errand, subject }: ErrandCase, need: Need): readonly (SubjectId | undefined)[] {
  if (need.each === undefined || (need.each === errand.each && subject !== undefined)) return [subject];
  return (at.index.subjectsOf.get(need.each) ?? [])
    .filter((one) => one.to === undefined || one.to >= at.day)
    .map((one) => one.id);
}

/** Every need that applies or may apply, in the order of the practice. */
export function readNeeds(at: Standpoint, asked: ErrandCase): readonly NeedDraft[] {
  const drafts: NeedDraft[] = [];
  for (const need of asked.errand.needs) {
    const applies = appliesAt(at, need.when);
    if (applies === false) continue;
    for (const subject of subjectsFor(at, asked, need)) {
      const draft = readNeed({ at, errand: asked.errand, need, subject, applies });
      if (draft !== undefined) drafts.push(draft);
    }
  }
  return drafts;
}
