import type { Edition, SubjectId } from '../vocabulary/lot.ts';
import type { KindId, OfficeId } from '../vocabulary/practice.ts';
import { type Entry, subjectKey } from './lot-index.ts';
import { decision, isApprovedBy, isThere, standingAmong } from './standing.ts';
import { type Asked, indexLot, kindOf, remembered, type Standpoint } from './standpoint.ts';

/** Which paper is meant: a kind, for one subject where the kind has one paper per subject. */
export interface Wanted {
  readonly kind: KindId;
  readonly subject?: SubjectId | undefined;
  readonly approvedBy?: OfficeId | undefined;
}

/** The subject only where this kind has one paper per such subject. */
export function subjectFor(at: Standpoint, kind: KindId, subject: SubjectId | undefined): SubjectId | undefined {
  if (subject === undefined) return undefined;
  return at.index.subjects.get(subject)?.sort === kindOf(at, kind)?.each ? subject : undefined;
}

/** Every edition of the kind (and subject) that the lot ever kept, newest first. */
export function poolOf(at: Standpoint, kind: KindId, subject: SubjectId | undefined): readonly Entry[] {
  const own = subjectFor(at, kind, subject);
  const found = own === undefined ? at.index.byKind.get(kind) : at.index.byKindAndSubject.get(subjectKey(kind, own));
  return found ?? [];
}

export function stands(at: Standpoint, entry: Entry): boolean {
  return isThere(entry.edition, at.day) && decision(entry.edition, at.day) === 'stands';
}

/** What links to an edition by one word, where it is there by the day and nobody turned it down. Oldest first. */
export function linkedTo(at: Standpoint, entry: Entry, word: 'replaces' | 'amends' | 'extends' | 'continues'): Entry[] {
  const links = at.index.linksTo.get(entry.edition.id);
  if (links === undefined) return [];
  return links
    .flatMap((link) => (link.word === word && stands(at, link.from) ? [link.from] : []))
    .sort((a, b) => (a.dated < b.dated ? -1 : a.dated > b.dated ? 1 : a.order - b.order));
}

/**
 * The edition that took this one's place by its own link. Where an office's approval counts,
 * only an edition which that office approved can take the place of another.
 */
export function replacerOf(at: Standpoint, entry: Entry, approvedBy?: OfficeId): Entry | undefined {
  return linkedTo(at, entry, 'replaces').find(
    (from) => approvedBy === undefined || isApprovedBy(from.edition, approvedBy, at.day),
  );
}

function sameKindTarget(at: Standpoint, entry: Entry, words: readonly string[]): Entry | undefined {
  for (const link of entry.edition.links) {
    const target = words.includes(link.word) ? at.index.entries.get(link.to) : undefined;
    if (target?.paper.kind === entry.paper.kind && stands(at, target)) return target;
  }
  return undefined;
}

/** An amendment or extension rides on its edition; a next period counts once it is in force. */
function standsAlone(at: Standpoint, entry: Entry): boolean {
  if (entry.edition.links.length === 0) return true;
  if (sameKindTarget(at, entry, ['amends', 'extends']) !== undefined) return false;
  const { effective } = entry.edition;
  return effective === undefined || effective <= at.day || sameKindTarget(at, entry, ['continues']) === undefined;
}

function findCurrent(at: Standpoint, wanted: Wanted): Entry | undefined {
  const { approvedBy } = wanted;
  return poolOf(at, wanted.kind, wanted.subject).find((entry) => {
    if (!isThere(entry.edition, at.day) || !standsAlone(at, entry)) return false;
    if (replacerOf(at, entry, approvedBy) !== undefined) return false;
    if (approvedBy === undefined) return stands(at, entry);
    return (
      isApprovedBy(entry.edition, approvedBy, at.day) && standingAmong(entry.edition, ['revoked'], at.day) === undefined
    );
  });
}

const currentByKey = remembered((at: Standpoint, key: string): { readonly entry: Entry | undefined } => {
  const [kind = '', subject, approvedBy] = key.split('\n');
  return {
    entry: findCurrent(at, { kind, subject: subject || undefined, approvedBy: approvedBy || undefined }),
  };
});

export function currentEntry(at: Standpoint, wanted: Wanted): Entry | undefined {
  const subject = subjectFor(at, wanted.kind, wanted.subject);
  return currentByKey(at, `${wanted.kind}\n${subject ?? ''}\n${wanted.approvedBy ?? ''}`).entry;
}

/** The offices whose approval the practice asks for on a kind; any office's where it asks for none. */
function approvalOf(at: Standpoint, { edition, paper }: Entry): OfficeId | undefined {
  const asked = (at.rules.wanters.get(paper.kind) ?? []).flatMap(({ needs }) =>
    needs.flatMap(({ kinds, approvedBy }) =>
      approvedBy !== undefined && kinds.includes(paper.kind) ? [approvedBy] : [],
    ),
  );
  if (asked.length === 0) return standingAmong(edition, ['approved'], at.day)?.office;
  return asked.find((office) => isApprovedBy(edition, office, at.day));
}

function findCounting(at: Standpoint, wanted: Pick<Wanted, 'kind' | 'subject'>): Entry | undefined {
  const newest = currentEntry(at, wanted);
  for (const entry of newest === undefined ? [] : poolOf(at, wanted.kind, wanted.subject)) {
    if (entry.paper.id !== newest?.paper.id) continue;
    const approvedBy = approvalOf(at, entry);
    if (approvedBy !== undefined) return currentEntry(at, { ...wanted, approvedBy }) ?? newest;
  }
  return newest;
}

const countingByKey = remembered((at: Standpoint, key: string): { readonly entry: Entry | undefined } => {
  const [kind = '', subject] = key.split('\n');
  return { entry: findCounting(at, { kind, subject: subject || undefined }) };
});

/**
 * What people work by: once an office approved an edition of a paper, a newer one counts when that office has approved
 * it too, and until then nobody holds an old copy because of it.
 */
export function countingEntry(at: Standpoint, { kind, subject }: Pick<Wanted, 'kind' | 'subject'>): Entry | undefined {
  return countingByKey(at, `${kind}\n${subject ?? ''}`).entry;
}

export function countingEdition(wanted: Pick<Wanted, 'kind' | 'subject'>, asked: Asked): Edition | undefined {
  return countingEntry(indexLot(asked), wanted)?.edition;
}

/** A newer edition that waits for the approval the older one has, with the office it waits for. */
export function awaitingApproval(
  wanted: Pick<Wanted, 'kind' | 'subject'>,
  asked: Asked,
): { readonly edition: Edition; readonly office: OfficeId } | undefined {
  const at = indexLot(asked);
  const [newest, counts] = [currentEntry(at, wanted), countingEntry(at, wanted)];
  if (newest === undefined || counts === undefined || newest.edition.id === counts.edition.id) return undefined;
  const office = approvalOf(at, counts);
  return office === undefined || newest.dated < counts.dated ? undefined : { edition: newest.edition, office };
}

/**
 * The edition that counts: the newest one not refused, revoked or replaced; where an office's approval is
 * asked for, the newest that this office approved. What was issued or came in after the day isn't there yet.
 */
export function currentEdition(wanted: Wanted, asked: Asked): Edition | undefined {
  return currentEntry(indexLot(asked), wanted)?.edition;
}
