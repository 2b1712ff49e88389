import type { Truth } from '../vocabulary/facts.ts';
import type { ErrandState } from '../vocabulary/finding.ts';
import type { Agreement, KindId } from '../vocabulary/practice.ts';
import { agreementProblem } from './agreement-problem.ts';
import { beforeProblems, holdProblems } from './befores.ts';
import { caseKey, errandApplies, isSettled, latestVisit } from './errand-case.ts';
import type { Entry } from './lot-index.ts';
import { type NeedDraft, readNeeds } from './needs.ts';
import { unanswered } from './not-answered.ts';
import { byWeight, type Problem } from './problem.ts';
import { saysTheSame } from './stale.ts';
import { type ErrandCase, remembered, type Standpoint } from './standpoint.ts';

/** An errand looked into on the day, before remedies are worded. */
export interface Examined {
  readonly applies: Truth;
  readonly state: ErrandState;
  readonly needs: readonly NeedDraft[];
  /** Their own comments not answered, befores and holds that aren't met. */
  readonly ahead: readonly Problem[];
  /** Agreements between papers that don't hold or can't be told. */
  readonly agreements: readonly Problem[];
}

/** Agreements that touch what this errand needs, each once per subject it is about. */
function agreementCases(
  at: Standpoint,
  needs: readonly NeedDraft[],
): ReadonlyMap<string, { agreement: Agreement; subject: string | undefined }> {
  const cases = new Map<string, { agreement: Agreement; subject: string | undefined }>();
  for (const { reading, entry } of needs) {
    if (entry === undefined) continue;
    for (const agreement of at.rules.agreementsOn.get(reading.kind) ?? []) {
      cases.set(`${agreement.id} ${entry.paper.subject ?? ''}`, { agreement, subject: entry.paper.subject });
    }
  }
  return cases;
}

/** The editions this errand takes along, by kind, so that agreements speak of those and no others. */
function chosenOf(needs: readonly NeedDraft[], subject: string | undefined): ReadonlyMap<KindId, Entry> {
  const chosen = new Map<KindId, Entry>();
  for (const { reading, entry } of needs) {
    if (entry === undefined || (reading.subject !== undefined && subject !== undefined && reading.subject !== subject))
      continue;
    if (!chosen.has(reading.kind)) chosen.set(reading.kind, entry);
  }
  return chosen;
}

/** A paper this errand brings is made anew by it: what the old one says holds nobody up. */
function madeAnew({ errand }: ErrandCase, { terms }: Agreement): boolean {
  return terms.some((term) => term.of === 'paper' && errand.yields.includes(term.kind));
}

function agreementProblems(at: Standpoint, one: ErrandCase, needs: readonly NeedDraft[]): readonly Problem[] {
  const problems: Problem[] = [];
  const stale = needs.flatMap(({ entry, problems: told }) =>
    entry !== undefined && told.some(({ sort, weight }) => sort === 'stale' && weight !== 'ask first') ? [entry] : [],
  );
  for (const { agreement, subject } of agreementCases(at, needs).values()) {
    if (madeAnew(one, agreement) || stale.some((entry) => saysTheSame(at, agreement, entry))) continue;
    const found = agreementProblem(at, agreement, {
      subject: subject ?? one.subject,
      chosen: chosenOf(needs, subject),
      errand: one.errand.id,
    });
    if (found !== undefined) problems.push(found);
  }
  return problems;
}

function isBlocked(needs: readonly NeedDraft[], others: readonly Problem[]): boolean {
  if (needs.some((draft) => draft.reading.applies === true && draft.unmet)) return true;
  const all = [...needs.flatMap((draft) => draft.problems), ...others];
  return all.some(
    (problem) =>
      problem.weight === 'refused' ||
      (problem.weight === 'questioned' && (problem.sort === 'event missing' || problem.sort === 'errand not settled')),
  );
}

function stateOf(at: Standpoint, one: ErrandCase, blocked: boolean): ErrandState {
  if (isSettled(at, one)) return 'settled';
  const visit = latestVisit(at, one)?.state;
  if (visit === 'left with them' || visit === 'sent back') return visit;
  return blocked ? "can't go yet" : 'can go';
}

const nothing = { needs: [], ahead: [], agreements: [] } as const;

function examineNow(at: Standpoint, one: ErrandCase): Examined {
  const applies = errandApplies(at, one.errand);
  if (applies === false) return { applies, state: "doesn't apply", ...nothing };
  const needs = readNeeds(at, one);
  const ahead = [...unanswered(at, one), ...beforeProblems(at, one), ...holdProblems(at, one)];
  const agreements = agreementProblems(at, one, needs);
  const state = stateOf(at, one, isBlocked(needs, [...ahead, ...agreements]));
  return { applies, state, needs, ahead, agreements: agreements.toSorted(byWeight) };
}

const examinedByKey = remembered((at: Standpoint, key: string): Examined => {
  const [id = '', ...subject] = key.split(' ');
  const errand = at.practice.errands[id];
  if (errand === undefined) return { applies: false, state: "doesn't apply", ...nothing };
  return examineNow(at, { errand, subject: subject.length === 0 ? undefined : subject.join(' ') });
});

export function examine(at: Standpoint, one: ErrandCase): Examined {
  return examinedByKey(at, caseKey(one));
}
