import { type Asked, awaitingApproval, countingEdition, readErrand, readWay } from '../../readiness/index.ts';
import type { Handover } from '../../store/index.ts';
import { type Day, dayInWords } from '../../vocabulary/days.ts';
import type { Edition, Paper } from '../../vocabulary/lot.ts';
import type { ChangedRow, MadeFromOldRow, OldCopyRow, UnseenRow } from '../contract/lapse-answers.ts';
import { entryIn, kindTitle, type NamedEdition } from '../named.ts';
import { errandTitle, officeTitle, subjectTitle, titleFor } from './asked.ts';

/** What changed while others hold the old of it: whom to tell, and what an office has not seen yet. */

/** The edition that took the place of this one, where one did; what only rides on another edition is not old by that. */
export function newerThan({ paper, edition }: NamedEdition, asked: Asked): Edition | undefined {
  const rides = edition.links.some(
    ({ word, to }) => (word === 'amends' || word === 'extends') && entryIn(asked.lot, to)?.paper.kind === paper.kind,
  );
  const counts = countingEdition({ kind: paper.kind, subject: paper.subject }, asked);
  if (rides || counts === undefined || counts.paper !== paper.id || counts.id === edition.id) return undefined;
  // Who has one that is not approved yet has none that is older.
  return awaitingApproval(paper, asked)?.edition.id === edition.id ? undefined : counts;
}

/** What people call an edition: its revision, its number, or the day it was issued. */
function calledBy({ revision, number, issued, received }: Edition): string {
  if (revision !== undefined) return `revision ${revision}`;
  return number ?? `the one of ${dayInWords(issued ?? received)}`;
}

function titleOf(paper: Paper, asked: Asked): string {
  return titleFor(paper.title, subjectTitle(asked.lot, paper.subject));
}

interface Old {
  readonly entry: NamedEdition;
  readonly newer: Edition;
  readonly copy: OldCopyRow;
}

function oldCopies(given: readonly Handover[], asked: Asked): readonly Old[] {
  return given.flatMap(({ id, recipient, day, how, editions }) =>
    editions.flatMap(({ edition, copies }) => {
      const entry = entryIn(asked.lot, edition);
      const newer = entry === undefined ? undefined : newerThan(entry, asked);
      if (entry === undefined || newer === undefined) return [];
      const copy = { to: recipient, day, how, copies, holds: calledBy(entry.edition), handover: id };
      return [{ entry, newer, copy }];
    }),
  );
}

/** Whoever got the new edition as well needs no telling. */
function heldBy(given: readonly Handover[], edition: string): ReadonlySet<string> {
  return new Set(
    given.filter(({ editions }) => editions.some((one) => one.edition === edition)).map((one) => one.recipient),
  );
}

/** A paper that counts and was made from others. */
interface Made {
  readonly paper: Paper;
  readonly counts: Edition;
}

/** By the edition they were made from; a list of papers is gone through once for all that changed. */
type Makers = ReadonlyMap<string, readonly Made[]>;

function makersOf(asked: Asked): Makers {
  const makers = new Map<string, Made[]>();
  for (const paper of asked.lot.papers) {
    const counts = countingEdition({ kind: paper.kind, subject: paper.subject }, asked);
    if (counts?.paper !== paper.id) continue;
    for (const { word, to } of counts.links) {
      if (word === 'made from') makers.set(to, [...(makers.get(to) ?? []), { paper, counts }]);
    }
  }
  return makers;
}

/** Papers that count and were made from an edition kept before this one. */
function madeFromOld(paper: Paper, newest: string, { asked, makers }: Looked): readonly MadeFromOldRow[] {
  const older = paper.editions.slice(
    0,
    paper.editions.findIndex(({ id }) => id === newest),
  );
  const told = new Set<string>();
  return older.flatMap((from) =>
    (makers.get(from.id) ?? []).flatMap(({ paper: made, counts }) => {
      const kind = asked.practice.papers[made.kind];
      if (kind === undefined || told.has(made.id)) return [];
      told.add(made.id);
      const office = officeTitle(asked.practice, kind.from);
      return [
        { paper: made.id, title: titleOf(made, asked), number: counts.number ?? '', office, from: calledBy(from) },
      ];
    }),
  );
}

function lastOf(copies: readonly OldCopyRow[]): readonly OldCopyRow[] {
  const byHolder = Map.groupBy(copies, ({ to }) => to);
  return [...byHolder.values()].flatMap((own) => own.toSorted((a, b) => (a.day < b.day ? 1 : -1)).slice(0, 1));
}

/** Who works by a paper: everybody who holds any edition of it, with the newest they have. */
function holdersOf(paper: Paper, given: readonly Handover[], asked: Asked): readonly OldCopyRow[] {
  return lastOf(
    given.flatMap(({ id, recipient, day, how, editions }) =>
      editions.flatMap(({ edition, copies }) => {
        const entry = entryIn(asked.lot, edition);
        if (entry?.paper.id !== paper.id) return [];
        return [{ to: recipient, day, how, copies, holds: calledBy(entry.edition), handover: id }];
      }),
    ),
  );
}

/** A newer edition that is not approved yet: whom it will have to be told to, once it is. */
function pendingOf(paper: Paper, looked: Looked): ChangedRow['pending'] {
  const { given, asked } = looked;
  const waits = awaitingApproval(paper, asked);
  if (waits === undefined || waits.edition.paper !== paper.id) return undefined;
  const { edition, office } = waits;
  const told = heldBy(given, edition.id);
  return {
    next: calledBy(edition),
    dated: edition.issued ?? edition.received,
    office: officeTitle(asked.practice, office),
    tell: holdersOf(paper, given, asked).filter(({ to }) => !told.has(to)),
    makers: madeFromOld(paper, edition.id, looked),
  };
}

function newestOf(paper: Paper, asked: Asked): Edition | undefined {
  const counts = countingEdition({ kind: paper.kind, subject: paper.subject }, asked);
  return counts?.paper === paper.id && paper.editions.length > 1 ? counts : undefined;
}

interface Looked {
  readonly given: readonly Handover[];
  readonly makers: Makers;
  readonly asked: Asked;
}

function changedRow(paper: Paper, old: readonly Old[], looked: Looked): readonly ChangedRow[] {
  const { given, asked } = looked;
  const newest = newestOf(paper, asked);
  if (newest === undefined) return [];
  const told = heldBy(given, newest.id);
  const copies = old.map(({ copy }) => copy).filter(({ to }) => !told.has(to));
  const makers = madeFromOld(paper, newest.id, looked);
  const pending = pendingOf(paper, looked);
  const ahead = (pending?.tell.length ?? 0) + (pending?.makers.length ?? 0);
  if (copies.length + makers.length + ahead === 0) return [];
  const row = { paper: paper.id, title: titleOf(paper, asked), now: calledBy(newest), since: newest.received };
  return [{ ...row, holders: lastOf(copies), makers, pending: ahead === 0 ? undefined : pending }];
}

/** Every paper whose old editions others hold or built on, or soon will, newest change first. */
export function changedPapers(given: readonly Handover[], asked: Asked): readonly ChangedRow[] {
  const old = Map.groupBy(oldCopies(given, asked), ({ entry }) => entry.paper.id);
  const looked: Looked = { given, makers: makersOf(asked), asked };
  const rows = asked.lot.papers.flatMap((paper) => changedRow(paper, old.get(paper.id) ?? [], looked));
  const last = ({ since, pending }: ChangedRow): Day => pending?.dated ?? since;
  return rows.toSorted((a, b) => (last(a) < last(b) ? 1 : last(a) > last(b) ? -1 : 0));
}

/** Papers an office asks to keep, in hand, and not among what it was given; what it issued itself it knows. */
export function unseenBy(office: string, given: readonly Handover[], asked: Asked): readonly UnseenRow[] {
  if (given.length === 0) return [];
  const seen = new Set(given.flatMap(({ editions }) => editions.map(({ edition }) => edition)));
  const found = new Map<string, UnseenRow>();
  for (const { errand, subject, state } of readWay(asked).stops) {
    const rule = asked.practice.errands[errand];
    if (rule === undefined || rule.office !== office || state === "doesn't apply") continue;
    for (const { need, kind, edition } of readErrand(errand, { ...asked, subject }).needs) {
      const use = rule.needs.find(({ id }) => id === need)?.use;
      const entry = edition === undefined || seen.has(edition) ? undefined : entryIn(asked.lot, edition);
      // What an office has yet to approve is news to that office alone.
      const waits = entry === undefined ? undefined : awaitingApproval(entry.paper, asked);
      if (waits !== undefined && waits.edition.id === edition && waits.office !== office) continue;
      if (use !== 'leave' || entry === undefined || asked.practice.papers[kind]?.from === office) continue;
      const holds = entry.paper.editions.findLast(({ id }) => seen.has(id));
      // A settled errand is over: only what changed since is news to them.
      if (found.has(entry.edition.id) || (state === 'settled' && holds === undefined)) continue;
      found.set(entry.edition.id, {
        paper: entry.paper.id,
        title: titleFor(kindTitle(asked.practice, kind), subjectTitle(asked.lot, entry.paper.subject)),
        number: entry.edition.revision === undefined ? (entry.edition.number ?? '') : calledBy(entry.edition),
        errand,
        errandTitle: errandTitle(asked.practice, errand),
        holds: holds === undefined ? undefined : calledBy(holds),
      });
    }
  }
  return [...found.values()];
}
