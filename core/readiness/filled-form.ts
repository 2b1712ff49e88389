import { type OutOfDate, outOfDate } from '../forms/out-of-date.ts';
import { changeInWords, type FilledWith } from '../vocabulary/forms.ts';
import type { KindId } from '../vocabulary/practice.ts';
import type { Entry } from './lot-index.ts';
import { type NeedCase, needProblem, paperTitle } from './need-case.ts';
import type { Problem } from './problem.ts';
import type { Standpoint } from './standpoint.ts';

interface PaperCase {
  readonly given: NeedCase;
  readonly kind: KindId;
  readonly entry: Entry;
}

/** What a paper was filled with: its own pages, or the filled copy that the signed one took the place of. */
function filledBehind(at: Standpoint, entry: Entry): FilledWith | undefined {
  if (entry.edition.filled !== undefined) return entry.edition.filled;
  for (const { word, to } of entry.edition.links) {
    const before = word === 'replaces' || word === 'made from' ? at.index.entries.get(to) : undefined;
    if (before?.paper.kind === entry.paper.kind && before.edition.filled !== undefined) return before.edition.filled;
  }
  return undefined;
}

/** `Place: filled with "Lot 7, Heron Lane", and it is "418 Heron Lane" by now`. */
function differing(one: OutOfDate): string {
  return `${one.title}: ${changeInWords(one)}`;
}

/** A form whose facts changed since it was filled. What the lot no longer knows is no reproach. */
export function filledProblem({ given, kind, entry }: PaperCase): Problem | undefined {
  const { at, subject } = given;
  const filled = filledBehind(at, entry);
  const found = filled === undefined ? [] : outOfDate(filled, at, subject);
  if (found.length === 0) return undefined;
  const more = found.length > 3 ? `; and ${found.length - 3} more` : '';
  const say = `${paperTitle(at, kind, subject)} is out of date. ${found.slice(0, 3).map(differing).join('; ')}${more}.`;
  const problem = needProblem(
    given,
    { kind, entry, sort: 'stale' },
    { say, mend: { do: 'say', say: 'Fill the blank again, read it through, and sign that one.' } },
  );
  return { ...problem, weight: 'questioned' };
}
