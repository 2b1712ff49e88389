import type { PaperState } from '../vocabulary/finding.ts';
import type { Paper, PaperId, SubjectId } from '../vocabulary/lot.ts';
import type { Errand, KindId } from '../vocabulary/practice.ts';
import { plusDays } from './calendar.ts';
import { appliesAt } from './condition-at.ts';
import { currentEntry, poolOf, stands, subjectFor } from './current.ts';
import type { Entry } from './lot-index.ts';
import { isThere, standingAmong } from './standing.ts';
import { kindOf, type Standpoint } from './standpoint.ts';
import { validityAt } from './validity.ts';
import { visitsMade } from './visits.ts';

/** A paper that lapses within this many days is shown as lapsing. */
export const lapsingDays = 30;

/** Does a place like this have such a paper at all? */
export function kindApplies(at: Standpoint, kind: KindId): boolean {
  const rule = kindOf(at, kind);
  if (rule === undefined) return true;
  const office = Object.hasOwn(at.practice.offices, rule.from) ? at.practice.offices[rule.from] : undefined;
  return office?.exists !== false && appliesAt(at, rule.when) !== false;
}

/** The owner's own reason why this paper is not needed, where every record of it says so. */
export function notApplicable(at: Standpoint, kind: KindId, subject: SubjectId | undefined): string | undefined {
  const own = subjectFor(at, kind, subject);
  const papers = (at.index.papersOf.get(kind) ?? []).filter((paper) => own === undefined || paper.subject === own);
  if (papers.length === 0 || papers.some((paper) => paper.notApplicable === undefined)) return undefined;
  return papers[0]?.notApplicable;
}

/** The errand that asked for it and still waits for an answer. */
export function awaitedFrom(at: Standpoint, kind: KindId, subject: SubjectId | undefined): Errand | undefined {
  return (at.rules.yielders.get(kind) ?? []).find(
    (errand) => visitsMade(at, errand, subject).at(-1)?.state === 'left with them',
  );
}

export function stateOfEntry(at: Standpoint, entry: Entry): 'in hand' | 'lapsing' | 'lapsed' | 'unreadable' {
  if (!entry.edition.readable) return 'unreadable';
  const { good, through } = validityAt(at, entry);
  if (good === false) return 'lapsed';
  if (through === 'for good' || through === 'unknown' || through === 'ended') return 'in hand';
  return through <= plusDays(at.day, lapsingDays) ? 'lapsing' : 'in hand';
}

function stateWithout(at: Standpoint, pool: readonly Entry[], awaited: boolean): PaperState {
  if (awaited) return 'awaited';
  const there = pool.filter((entry) => isThere(entry.edition, at.day));
  if (there.some((entry) => stands(at, entry))) return 'replaced';
  return there.some((entry) => standingAmong(entry.edition, ['revoked'], at.day) !== undefined)
    ? 'lapsed'
    : 'not asked for';
}

/**
 * The state of a kind of paper on the day; with `paper`, of that one record among several of its kind.
 */
export function paperStateOf(
  at: Standpoint,
  wanted: { readonly kind: KindId; readonly subject?: SubjectId | undefined; readonly paper?: PaperId | undefined },
): PaperState {
  const { kind, subject, paper } = wanted;
  const named = paper === undefined ? undefined : at.index.papers.get(paper);
  const record = named?.kind === kind ? named : undefined;
  const excused = record === undefined ? notApplicable(at, kind, subject) : record.notApplicable;
  if (!kindApplies(at, kind) || excused !== undefined) return "doesn't apply";
  const current = currentEntry(at, { kind, subject });
  if (current !== undefined && (record === undefined || current.paper.id === record.id))
    return stateOfEntry(at, current);
  const pool = record === undefined ? poolOf(at, kind, subject) : ownPool(at, record, subject);
  const standing = record === undefined ? undefined : pool.find((entry) => stands(at, entry) && isOnItsOwn(at, entry));
  if (standing !== undefined) return stateOfEntry(at, standing);
  return stateWithout(at, pool, awaitedFrom(at, kind, subject) !== undefined);
}

/** The editions of one record, newest first: none where the subject asked about is not its own. */
function ownPool(at: Standpoint, record: Paper, subject: SubjectId | undefined): readonly Entry[] {
  const own = subjectFor(at, record.kind, subject);
  return own !== undefined && own !== record.subject ? [] : (at.index.byPaper.get(record.id) ?? []);
}

/** One of several papers of a kind that stand side by side: nothing by name took its place. */
function isOnItsOwn(at: Standpoint, entry: Entry): boolean {
  return !(at.index.linksTo.get(entry.edition.id) ?? []).some(
    (link) => link.word === 'replaces' && stands(at, link.from),
  );
}
