import type { Truth } from '../vocabulary/facts.ts';
import type { SubjectId, Visit } from '../vocabulary/lot.ts';
import type { Errand, KindId } from '../vocabulary/practice.ts';
import { appliesAt } from './condition-at.ts';
import { currentEntry, poolOf, stands } from './current.ts';
import { type KeptResult, keptResult } from './inspection-result.ts';
import type { Entry } from './lot-index.ts';
import { kindApplies } from './paper-state.ts';
import { stalenessOf } from './stale.ts';
import { type ErrandCase, happenedOn, remembered, type Standpoint } from './standpoint.ts';
import { validityAt } from './validity.ts';
import { settles, visitsMade } from './visits.ts';

export function caseKey({ errand, subject }: ErrandCase): string {
  return subject === undefined ? errand.id : `${errand.id} ${subject}`;
}

/**
 * For whom an errand is run. Where it is one per subject and none is noted, an inspection still stands as one
 * (a hold must never open because nobody noted an area); anything else has nobody to be run for.
 */
export function subjectsOf(at: Standpoint, errand: Errand): readonly (SubjectId | undefined)[] {
  if (errand.each === undefined) return [undefined];
  const subjects = at.index.subjectsOf.get(errand.each) ?? [];
  if (subjects.length > 0) return subjects.map((subject) => subject.id);
  return errand.inspection ? [undefined] : [];
}

export function casesOf(at: Standpoint, errand: Errand): readonly ErrandCase[] {
  return subjectsOf(at, errand).map((subject) => ({ errand, subject }));
}

/** Whether the errand is one for this lot: its office exists and its condition isn't false. */
export function errandApplies(at: Standpoint, errand: Errand): Truth {
  const office = Object.hasOwn(at.practice.offices, errand.office) ? at.practice.offices[errand.office] : undefined;
  return office?.exists === false ? false : appliesAt(at, errand.when);
}

export function latestVisit(at: Standpoint, { errand, subject }: ErrandCase): Visit | undefined {
  return visitsMade(at, errand, subject).at(-1);
}

function yieldsOf(at: Standpoint, errand: Errand): readonly KindId[] {
  return errand.yields.filter((kind) => kindApplies(at, kind));
}

/** The results of an inspection that are in hand and count, in the order of the practice. */
function resultsOf(at: Standpoint, { errand, subject }: ErrandCase): readonly KeptResult[] {
  return yieldsOf(at, errand).flatMap((kind) => keptResult(at, errand, { kind, subject }) ?? []);
}

/**
 * An inspection is settled by a visit that passed it, unless a later result says otherwise; without such a visit only
 * by results that all say "passed". A report as such settles nothing: it may tell that the work failed.
 */
function wasPassed(at: Standpoint, one: ErrandCase, telling: Visit | undefined): boolean {
  const results = resultsOf(at, one);
  if (telling !== undefined) {
    const denied = results.some(({ verdict, entry }) => verdict === 'not passed' && entry.dated >= telling.day);
    return settles(one.errand, telling) && !denied;
  }
  const partly = visitsMade(at, one.errand, one.subject).some((visit) => visit.outcome === 'partial');
  const wanted = yieldsOf(at, one.errand).length;
  return !partly && wanted > 0 && results.length === wanted && results.every(({ verdict }) => verdict === 'passed');
}

/** Every paper it yields was kept at some time and not turned down, or a visit settled it and none failed since. */
function wasDone(at: Standpoint, one: ErrandCase): boolean {
  const { errand, subject } = one;
  const visits = visitsMade(at, errand, subject);
  const telling = visits.findLast((visit) => settles(errand, visit) || visit.outcome === 'fail');
  if (errand.inspection) return wasPassed(at, one, telling);
  if (telling !== undefined) return settles(errand, telling);
  const kinds = yieldsOf(at, errand);
  return kinds.length > 0 && kinds.every((kind) => poolOf(at, kind, subject).some((entry) => stands(at, entry)));
}

/** A result in hand that leaves its inspection unsettled: what keeps people from knowing why a hold is still shut. */
export function unsettledResult(at: Standpoint, one: ErrandCase): KeptResult | undefined {
  if (!one.errand.inspection || isSettled(at, one)) return undefined;
  return resultsOf(at, one).find(({ verdict }) => verdict !== 'passed') ?? resultsOf(at, one)[0];
}

/** Somebody still needs this kind: an errand not yet done, or a duty that runs. */
function stillNeeded(at: Standpoint, kind: KindId): boolean {
  const duty = (at.rules.dutiesOf.get(kind) ?? []).some(
    (one) =>
      appliesAt(at, one.when) !== false &&
      happenedOn(at, one.to) === undefined &&
      (one.from === undefined || happenedOn(at, one.from) !== undefined),
  );
  if (duty) return true;
  return (at.rules.wanters.get(kind) ?? []).some(
    (errand) =>
      errandApplies(at, errand) !== false &&
      errand.needs.some(
        (need) =>
          need.kinds.includes(kind) &&
          !need.optional &&
          need.use !== 'bring home' &&
          appliesAt(at, need.when) !== false,
      ) &&
      casesOf(at, errand).some((one) => !wasDone(at, one)),
  );
}

function isGone(at: Standpoint, pool: readonly Entry[], entry: Entry | undefined): boolean {
  if (entry === undefined) return !pool.some((one) => stands(at, one));
  return validityAt(at, entry).good === false || stalenessOf(at, entry).is === 'stale';
}

/** What it yielded has lapsed, was revoked or went stale, and somebody still needs it: it has to be done again. */
function hasRunOut(at: Standpoint, { errand, subject }: ErrandCase): boolean {
  return yieldsOf(at, errand).some((kind) => {
    const pool = poolOf(at, kind, subject);
    if (pool.length === 0) return false;
    const entry = currentEntry(at, { kind, subject });
    return isGone(at, pool, entry) && stillNeeded(at, kind);
  });
}

const settledByKey = remembered((at: Standpoint, key: string): boolean => {
  const [id = '', ...subject] = key.split(' ');
  const errand = at.practice.errands[id];
  if (errand === undefined) return false;
  const one: ErrandCase = { errand, subject: subject.length === 0 ? undefined : subject.join(' ') };
  if (latestVisit(at, one)?.state === 'sent back') return false;
  return wasDone(at, one) && !hasRunOut(at, one);
});

/** Settled: by a visit that settles it, or because everything it yields is in hand. */
export function isSettled(at: Standpoint, one: ErrandCase): boolean {
  return settledByKey(at, caseKey(one));
}

/** Nothing left to do there: settled for everyone, or not for this lot. */
export function isBehindUs(at: Standpoint, errand: Errand): boolean {
  if (errandApplies(at, errand) === false) return true;
  return casesOf(at, errand).every((one) => isSettled(at, one));
}
