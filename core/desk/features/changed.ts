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

/** Papers that count and were made from an edition kept before this one. */
function madeFromOld(paper: Paper, newest: string, asked: Asked): readonly MadeFromOldRow[] {
  const place = paper.editions.findIndex(({ id }) => id === newest);
  const older = new Map(paper.editions.slice(0, place).map((one) => [one.id, one] as const));
  return asked.lot.papers.flatMap((made) => {
    const counts = countingEdition({ kind: made.kind, subject: made.subject }, asked);
    const source = counts?.links.find(({ word, to }) => word === 'made from' && older.has(to));
    const from = source === undefined ? undefined : older.get(source.to);
    const kind = asked.practice.papers[made.kind];
    if (counts === undefined || counts.paper !== made.id || from === undefined || kind === undefined) return [];
    const office = officeTitle(asked.practice, kind.from);
    return [{ paper: made.id, title: titleOf(made, asked), number: counts.number ?? '', office, from: calledBy(from) }];
  });
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
function pendingOf(paper: Paper, given: readonly Handover[], asked: Asked): ChangedRow['pending'] {
  const waits = awaitingApproval(paper, asked);
  if (waits === undefined || waits.edition.paper !== paper.id) return undefined;
  const { edition, office } = waits;
  const told = heldBy(given, edition.id);
  return {
    next: calledBy(edition),
    dated: edition.issued ?? edition.received,
    office: officeTitle(asked.practice, office),
    tell: holdersOf(paper, given, asked).filter(({ to }) => !told.has(to)),
    makers: madeFromOld(paper, edition.id, asked),
  };
}

function newestOf(paper: Paper, asked: Asked): Edition | undefined {
  const counts = countingEdition({ kind: paper.kind, subject: paper.subject }, asked);
  return counts?.paper === paper.id && paper.editions.length > 1 ? counts : undefined;
}

interface Copies {
  readonly given: readonly Handover[];
  readonly old: readonly Old[];
}

function changedRow(paper: Paper, { given, old }: Copies, asked: Asked): readonly ChangedRow[] {
  const newest = newestOf(paper, asked);
  if (newest === undefined) return [];
  const told = heldBy(given, newest.id);
  const copies = old.map(({ copy }) => copy).filter(({ to }) => !told.has(to));
  const makers = madeFromOld(paper, newest.id, asked);
  const pending = pendingOf(paper, given, asked);
  const ahead = (pending?.tell.length ?? 0) + (pending?.makers.length ?? 0);
  if (copies.length + makers.length + ahead === 0) return [];
  const row = { paper: paper.id, title: titleOf(paper, asked), now: calledBy(newest), since: newest.received };
  return [{ ...row, holders: lastOf(copies), makers, pending: ahead === 0 ? undefined : pending }];
}

/** Every paper whose old editions others hold or built on, or soon will, newest change first. */
export function changedPapers(given: readonly Handover[], asked: Asked): readonly ChangedRow[] {
  const old = Map.groupBy(oldCopies(given, asked), ({ entry }) => entry.paper.id);
  const rows = asked.lot.papers.flatMap((paper) => changedRow(paper, { given, old: old.get(paper.id) ?? [] }, asked));
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
