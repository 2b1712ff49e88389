import {
  type Asked,
  currentEdition,
  lapsingDays,
  readAmiss,
  readDuties,
  readHolds,
  validityOf,
} from '../../readiness/index.ts';
import type { Day } from '../../vocabulary/days.ts';
import { type Finding, type FindingSort, weights } from '../../vocabulary/finding.ts';
import type { SoonRow } from '../contract/screen-answers.ts';
import { editionIn } from '../named.ts';
import { aheadOf, dueBy, lapsedNow, paperKey, uncoveredNow } from './ahead.ts';
import { titleOfFound } from './asked.ts';

/** What is wrong with papers today, and what will be within the month. */

/** More time is asked for a paper that lapses or may no longer be held alive, where the practice knows that it is given. */
function extendOf({ kind, edition, subject, sort }: Finding, asked: Asked): string | undefined {
  const rule = kind === undefined ? undefined : asked.practice.papers[kind];
  if (kind === undefined || rule?.extension === undefined) return undefined;
  if (sort !== 'lapsing' && sort !== 'lapsed' && sort !== 'duty at risk' && sort !== 'ask to extend') return undefined;
  // Asked for as often as it is given, or not before it lapsed, there is nothing to ask for any more.
  const held = edition === undefined ? currentEdition({ kind, subject }, asked) : editionIn(asked.lot, edition);
  return held !== undefined && validityOf(held, asked).askBy !== undefined ? held.id : undefined;
}

function soonRow(finding: Finding, by: Day | undefined, asked: Asked): SoonRow {
  const extend = extendOf(finding, asked);
  return { ...finding, title: titleOfFound(finding, asked), by, extend };
}

/** Duties whose paper is not in hand, or can't be told to be good; what has ended is told as lapsed. */
function failedDuties(asked: Asked): readonly SoonRow[] {
  return readDuties(asked).flatMap(({ findings, validity }) => {
    if (validity?.good === true || validity?.good === false) return [];
    return findings.map((finding) => soonRow(finding, undefined, asked));
  });
}

/** All of these tell the end of a paper. */
const ends: ReadonlySet<FindingSort> = new Set<FindingSort>([
  'lapsed',
  'lapsing',
  'too old',
  'duty at risk',
  'ask to extend',
]);

/** A paper that has ended, or will have before it is needed; what only comes to its end in time is no fault. */
function isTooShort({ sort, weight }: Finding): boolean {
  const short = sort === 'lapsed' || sort === 'lapsing' || sort === 'duty at risk';
  return short && (weight === 'refused' || weight === 'questioned');
}

function heaviestFirst(rows: readonly SoonRow[]): readonly SoonRow[] {
  return rows.toSorted(
    (a, b) => weights.indexOf(a.weight) - weights.indexOf(b.weight) || ((a.by ?? '9999') < (b.by ?? '9999') ? -1 : 1),
  );
}

interface AmissAndSoon {
  /** To be put right before the next trip: what they would stumble over, and what ends before it is needed. */
  readonly amiss: readonly SoonRow[];
  readonly soon: readonly SoonRow[];
}

/** Days of cover that never were right are told as a disagreement already; what has ended since is told all the same. */
function isDisputed(finding: Finding, found: readonly Finding[]): boolean {
  const key = paperKey(finding);
  return finding.sort !== 'lapsed' && found.some((row) => row.sort === 'disagree' && paperKey(row) === key);
}

/** Each paper's fault once, and at the place where it weighs most. */
export function amissAndSoon(asked: Asked): AmissAndSoon {
  const found = readAmiss(asked).map(({ finding, by }) => soonRow(finding, by, asked));
  const known = new Set(found.filter(({ sort }) => ends.has(sort)).map(paperKey));
  const uncovered = uncoveredNow(asked)
    .filter(({ finding }) => !known.has(paperKey(finding)) && !isDisputed(finding, found))
    .map(({ finding }) => soonRow(finding, undefined, asked));
  const stumble = [...found, ...uncovered];
  const told = new Set([...known, ...uncovered.map(paperKey)]);
  const ending = [
    ...lapsedNow(asked).map(({ finding, on }) => soonRow(finding, on, asked)),
    ...failedDuties(asked),
    ...aheadOf(asked, lapsingDays).map((each) => soonRow(each.finding, dueBy(each), asked)),
  ].filter((row) => !told.has(paperKey(row)));
  const broken = readHolds(asked).flatMap(({ findings }) => findings.map((each) => soonRow(each, undefined, asked)));
  return {
    amiss: [...stumble, ...heaviestFirst(ending.filter(isTooShort))],
    soon: heaviestFirst([...ending.filter((row) => !isTooShort(row)), ...broken]),
  };
}
