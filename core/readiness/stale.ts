import type { Agreement } from '../vocabulary/practice.ts';
import { countingEntry, currentEntry, replacerOf, stands } from './current.ts';
import type { Entry } from './lot-index.ts';
import { isApprovedBy, standingAmong } from './standing.ts';
import { kindOf, remembered, type Standpoint } from './standpoint.ts';

export type Staleness =
  | { readonly is: 'fresh' }
  /** Made from an edition that another replaced. */
  | { readonly is: 'stale'; readonly from: Entry; readonly by: Entry }
  /** Nobody noted which edition it was made from, and a newer one has come since. */
  | { readonly is: 'unsure'; readonly by: Entry };

/** A newer edition of the same paper takes the place of an older one, but an unapproved one never that of an approved. */
export function displacer(at: Standpoint, source: Entry): Entry | undefined {
  const approval = standingAmong(source.edition, ['approved'], at.day);
  const counts = (by: Entry): boolean => approval === undefined || isApprovedBy(by.edition, approval.office, at.day);
  const linked = replacerOf(at, source);
  if (linked !== undefined && counts(linked)) return linked;
  const subject = source.paper.subject;
  const now =
    approval === undefined
      ? currentEntry(at, { kind: source.paper.kind, subject })
      : currentEntry(at, { kind: source.paper.kind, subject, approvedBy: approval.office });
  if (now === undefined || now.paper.id !== source.paper.id || now.edition.id === source.edition.id) return undefined;
  const carriesOn = now.edition.links.some(
    (link) =>
      link.to === source.edition.id && (link.word === 'continues' || link.word === 'amends' || link.word === 'extends'),
  );
  return carriesOn || now.dated < source.dated ? undefined : now;
}

function judge(at: Standpoint, entry: Entry, path: readonly string[]): Staleness {
  let linked = false;
  for (const link of entry.edition.links) {
    const source = link.word === 'made from' ? at.index.entries.get(link.to) : undefined;
    if (source === undefined) continue;
    linked = true;
    const by = displacer(at, source);
    if (by !== undefined) return { is: 'stale', from: source, by };
    if (path.includes(source.edition.id)) continue;
    const deeper = judge(at, source, [...path, source.edition.id]);
    if (deeper.is === 'stale') return deeper;
  }
  return linked ? { is: 'fresh' } : unlinked(at, entry);
}

/** No "made from" was noted: only a source that came after it raises the question. */
function unlinked(at: Standpoint, entry: Entry): Staleness {
  for (const kind of kindOf(at, entry.paper.kind)?.madeFrom ?? []) {
    const source = countingEntry(at, { kind, subject: entry.paper.subject });
    if (source !== undefined && stands(at, source) && source.dated > entry.dated) return { is: 'unsure', by: source };
  }
  return { is: 'fresh' };
}

/**
 * An agreement that holds the revision of a stale paper against the revision of what replaced its source finds
 * nothing new: the same fault is told once, by the paper.
 */
export function saysTheSame(at: Standpoint, { verb, terms }: Agreement, entry: Entry): boolean {
  const stale = stalenessOf(at, entry);
  if (stale.is !== 'stale' || verb !== 'same') return false;
  const kinds = terms.flatMap((term) => (term.of === 'paper' && term.fact === 'revision' ? [term.kind] : []));
  return kinds.length === terms.length && kinds.includes(entry.paper.kind) && kinds.includes(stale.by.paper.kind);
}

const stalenessById = remembered((at: Standpoint, id: string): Staleness => {
  const entry = at.index.entries.get(id);
  return entry === undefined ? { is: 'fresh' } : judge(at, entry, [id]);
});

/** Whether what an edition was made from has been replaced since, through any number of steps. */
export function stalenessOf(at: Standpoint, entry: Entry): Staleness {
  return stalenessById(at, entry.edition.id);
}
