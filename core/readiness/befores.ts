import type { FindingSort } from '../vocabulary/finding.ts';
import type { Basis, Errand, Hold, KindId } from '../vocabulary/practice.ts';
import { appliesAt } from './condition-at.ts';
import { casesOf, errandApplies, isBehindUs, isSettled, unsettledResult } from './errand-case.ts';
import { openQuestions, paperTitle } from './need-case.ts';
import { lighter, type Mend, type Problem, weightOf } from './problem.ts';
import { type ErrandCase, happenedOn, type Standpoint } from './standpoint.ts';
import { dayWords, sentence } from './words.ts';

export function eventTitle(at: Standpoint, event: string): string {
  return (Object.hasOwn(at.practice.events, event) ? at.practice.events[event]?.title : undefined) ?? event;
}

export function errandTitle(at: Standpoint, id: string): string {
  return (Object.hasOwn(at.practice.errands, id) ? at.practice.errands[id]?.title : undefined) ?? id;
}

function problem(
  one: ErrandCase,
  about: { readonly sort: FindingSort; readonly basis: Basis; readonly mend: Mend },
  told: { readonly say: string; readonly why: string },
): Problem {
  return {
    weight: weightOf(about.basis),
    sort: about.sort,
    errand: one.errand.id,
    subject: one.subject,
    office: one.errand.office,
    say: told.say,
    why: sentence(told.why),
    basis: about.basis,
    mend: about.mend,
    final: false,
  };
}

/** The word a before stands on, and why it is asked. */
interface Ground {
  readonly basis: Basis;
  readonly why: string;
}

/** What waits for an errand that may not be one for this lot is never refused: ask first. */
function maybe(at: Standpoint, first: Errand, found: Problem): Problem {
  if (errandApplies(at, first) !== 'unknown') return found;
  const open = `Whether "${first.title}" applies hangs on your answer to ${openQuestions(at, first.when)}.`;
  return { ...found, weight: lighter(found.weight, 'ask first'), why: `${found.why} ${open}` };
}

function errandBefore(at: Standpoint, one: ErrandCase, given: Ground & { readonly id: string }): readonly Problem[] {
  const { id, basis, why } = given;
  const first: Errand | undefined = Object.hasOwn(at.practice.errands, id) ? at.practice.errands[id] : undefined;
  if (first === undefined || isBehindUs(at, first)) return [];
  const paired = first.each !== undefined && first.each === one.errand.each && one.subject !== undefined;
  return casesOf(at, first)
    .filter((other) => (!paired || other.subject === one.subject) && !isSettled(at, other))
    .map((other) => {
      const mend: Mend = { do: 'settle', errand: id, subject: other.subject };
      const say = `"${first.title}" has to be settled first.`;
      return maybe(at, first, problem(one, { sort: 'errand not settled', basis, mend }, { say, why }));
    });
}

function eventBefore(at: Standpoint, one: ErrandCase, given: Ground & { readonly event: string }): readonly Problem[] {
  const { event, basis, why } = given;
  if (happenedOn(at, event) !== undefined) return [];
  const title = eventTitle(at, event);
  const causer = at.rules.causers.get(event)?.[0];
  const mend: Mend =
    causer === undefined || causer.id === one.errand.id
      ? { do: 'say', say: `Note "${title}" with its day once it has happened.`, first: `"${title}" noted` }
      : { do: 'settle', errand: causer.id, subject: undefined };
  const say = `"${title}" is not noted, and it has to come first.`;
  return [problem(one, { sort: 'event missing', basis, mend }, { say, why })];
}

/** What has to have happened, or been settled, before this errand. */
export function beforeProblems(at: Standpoint, one: ErrandCase): readonly Problem[] {
  return one.errand.before.flatMap((before) => {
    const applies = appliesAt(at, before.when);
    if (applies === false) return [];
    const { after, basis } = before;
    const ground: Ground = { basis, why: before.why ?? `"${one.errand.title}" comes after it` };
    const found =
      'event' in after
        ? eventBefore(at, one, { ...ground, event: after.event })
        : errandBefore(at, one, { ...ground, id: after.errand });
    if (applies === true) return found;
    return found.map((each) => ({
      ...each,
      weight: lighter(each.weight, 'ask first'),
      why: `${each.why} Whether it applies hangs on your answer to ${openQuestions(at, before.when)}.`,
    }));
  });
}

/** The errands that keep a hold shut. */
export function holdWaitsFor(at: Standpoint, hold: Hold): readonly Errand[] {
  return hold.until.flatMap((id) => {
    const errand = Object.hasOwn(at.practice.errands, id) ? at.practice.errands[id] : undefined;
    return errand === undefined || isBehindUs(at, errand) ? [] : [errand];
  });
}

/** A result is in hand and settles nothing by itself: what is missing is the decision, not another trip. */
function resultMend(at: Standpoint, first: Errand): Mend | undefined {
  const kept = casesOf(at, first).flatMap((one) => unsettledResult(at, one) ?? []);
  const silent = kept.find(({ verdict }) => verdict !== 'not passed');
  return silent === undefined ? undefined : { do: 'say', say: sayDecision(at, silent.kind), errand: first.id };
}

/** What to do with a result in hand from which nobody can tell that the work passed. */
export function sayDecision(at: Standpoint, kind: KindId): string {
  return `${paperTitle(at, kind, undefined)} is in hand: say what they decided, and record the visit with its outcome.`;
}

function holdProblem(
  at: Standpoint,
  hold: Hold,
  told: { readonly say: string; readonly first: Errand; readonly one?: ErrandCase },
): Problem {
  const applies = appliesAt(at, hold.when);
  return maybe(at, told.first, {
    weight: applies === true ? 'refused' : 'ask first',
    sort: 'errand not settled',
    errand: told.one?.errand.id ?? told.first.id,
    subject: told.one?.subject,
    office: told.first.office,
    say: told.say,
    why: `${hold.say} This can't be undone.`,
    basis: hold.basis,
    mend: resultMend(at, told.first) ?? { do: 'settle', errand: told.first.id, subject: undefined },
    final: true,
  });
}

/** What a hold finds: the event already noted while it was shut, or the errands it still waits for. */
export function holdFindings(at: Standpoint, hold: Hold): readonly Problem[] {
  if (appliesAt(at, hold.when) === false) return [];
  const happened = happenedOn(at, hold.event);
  if (happened === undefined) return [];
  return holdWaitsFor(at, hold).map((first) =>
    holdProblem(at, hold, {
      first,
      say: `"${eventTitle(at, hold.event)}" is noted on ${dayWords(happened)}, and "${first.title}" is not recorded as settled.`,
    }),
  );
}

/** Holds that bear on an errand: it would cause what is held, or it is the one a noted event ran ahead of. */
export function holdProblems(at: Standpoint, one: ErrandCase): readonly Problem[] {
  const ahead = one.errand.causes
    .flatMap((event) => at.rules.holdsOf.get(event) ?? [])
    .flatMap((hold) => {
      if (appliesAt(at, hold.when) === false || happenedOn(at, hold.event) !== undefined) return [];
      return holdWaitsFor(at, hold)
        .filter((first) => first.id !== one.errand.id)
        .map((first) =>
          holdProblem(at, hold, { first, one, say: `${hold.title}: "${first.title}" has to be settled.` }),
        );
    });
  const overtaken = (at.rules.holdsUntil.get(one.errand.id) ?? []).flatMap((hold) =>
    holdFindings(at, hold).filter((found) => found.errand === one.errand.id),
  );
  return [...ahead, ...overtaken];
}
