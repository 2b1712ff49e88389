import type { Day } from '../vocabulary/days.ts';
import type {
  Edition,
  EditionId,
  LinkWord,
  LotView,
  Paper,
  PaperId,
  Subject,
  SubjectId,
  Visit,
} from '../vocabulary/lot.ts';
import type { ErrandId, EventId, KindId, SubjectSort } from '../vocabulary/practice.ts';

/** An edition with the paper it belongs to. */
export interface Entry {
  readonly edition: Edition;
  readonly paper: Paper;
  /** Issue date, or where that is unknown the day it came in: what "newest" goes by. */
  readonly dated: Day;
  readonly order: number;
}

export interface LinkFrom {
  readonly word: LinkWord;
  readonly from: Entry;
}

/** Look-ups over one lot; a lot view is never changed in place, so it holds for as long as the view does. */
export interface LotIndex {
  readonly entries: ReadonlyMap<EditionId, Entry>;
  readonly papers: ReadonlyMap<PaperId, Paper>;
  readonly papersOf: ReadonlyMap<KindId, readonly Paper[]>;
  /** Newest first. */
  readonly byPaper: ReadonlyMap<PaperId, readonly Entry[]>;
  /** Newest first. */
  readonly byKind: ReadonlyMap<KindId, readonly Entry[]>;
  /** Keyed by `kind subject`; newest first. */
  readonly byKindAndSubject: ReadonlyMap<string, readonly Entry[]>;
  readonly linksTo: ReadonlyMap<EditionId, readonly LinkFrom[]>;
  /** Oldest first. */
  readonly visitsOf: ReadonlyMap<ErrandId, readonly Visit[]>;
  /** Oldest first. */
  readonly eventDays: ReadonlyMap<EventId, readonly Day[]>;
  readonly subjectsOf: ReadonlyMap<SubjectSort, readonly Subject[]>;
  readonly subjects: ReadonlyMap<SubjectId, Subject>;
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function newestFirst(a: Entry, b: Entry): number {
  return compare(b.dated, a.dated) || b.order - a.order;
}

function entriesOf(papers: readonly Paper[]): Entry[] {
  const entries: Entry[] = [];
  for (const paper of papers) {
    for (const edition of paper.editions) {
      entries.push({ edition, paper, dated: edition.issued ?? edition.received, order: entries.length });
    }
  }
  return entries;
}

function linksTo(entries: readonly Entry[]): Map<EditionId, LinkFrom[]> {
  const links = new Map<EditionId, LinkFrom[]>();
  for (const from of entries) {
    for (const link of from.edition.links) {
      const known = links.get(link.to);
      if (known === undefined) links.set(link.to, [{ word: link.word, from }]);
      else known.push({ word: link.word, from });
    }
  }
  return links;
}

function eventDays(lot: LotView): Map<EventId, Day[]> {
  const days = new Map<EventId, Day[]>();
  for (const { event, day } of [...lot.events].sort((a, b) => compare(a.day, b.day))) {
    days.set(event, [...(days.get(event) ?? []), day]);
  }
  return days;
}

export function subjectKey(kind: string, subject: SubjectId | undefined): string {
  return subject === undefined ? kind : `${kind} ${subject}`;
}

type OfPapers = Pick<
  LotIndex,
  'entries' | 'papers' | 'papersOf' | 'byPaper' | 'byKind' | 'byKindAndSubject' | 'linksTo'
>;

const known = new WeakMap<readonly Paper[], OfPapers>();

/** Look-ups over the papers alone: they hold for every view that shares the very list. */
function indexPapers(papers: readonly Paper[]): OfPapers {
  const before = known.get(papers);
  if (before !== undefined) return before;
  const entries = entriesOf(papers);
  const sorted = [...entries].sort(newestFirst);
  const made: OfPapers = {
    entries: new Map(entries.map((entry) => [entry.edition.id, entry])),
    papers: new Map(papers.map((paper) => [paper.id, paper])),
    byPaper: Map.groupBy(sorted, ({ paper }) => paper.id),
    papersOf: Map.groupBy(papers, ({ kind }) => kind),
    byKind: Map.groupBy(sorted, ({ paper }) => paper.kind),
    byKindAndSubject: Map.groupBy(sorted, ({ paper }) => subjectKey(paper.kind, paper.subject)),
    linksTo: linksTo(entries),
  };
  known.set(papers, made);
  return made;
}

export function indexLotView(lot: LotView): LotIndex {
  return {
    ...indexPapers(lot.papers),
    visitsOf: Map.groupBy(
      lot.visits.toSorted((a, b) => compare(a.day, b.day)),
      ({ errand }) => errand,
    ),
    eventDays: eventDays(lot),
    subjectsOf: Map.groupBy(lot.subjects, ({ sort }) => sort),
    subjects: new Map(lot.subjects.map((subject) => [subject.id, subject])),
  };
}
