import type { SubjectId } from '../vocabulary/lot.ts';
import type { Errand, KindId } from '../vocabulary/practice.ts';
import { currentEntry } from './current.ts';
import type { Entry } from './lot-index.ts';
import { isApprovedBy } from './standing.ts';
import { kindOf, type Standpoint } from './standpoint.ts';
import { factOf } from './whole-edition.ts';

/** What a kept result says of its inspection; 'silent' where nobody entered it or it can't be told. */
export type Verdict = 'passed' | 'not passed' | 'silent';

/** Words with which a report takes back, or never gave, the pass: one of them anywhere is enough to keep a hold shut. */
const against =
  /\b(fail\w*|not|no\s+(pass|approval)|refus\w*|reject\w*|den(y|ied)|disapprov\w*|unapproved|partial\w*|except|excluding|re-?inspect\w*|void|cancel\w*)\b/i;
const passed = /^\s*(pass|passed|approved)\b/i;

/** What an inspector's words come to. Common practice, no source: offices word their results freely. */
export function verdictInWords(text: string): Verdict {
  if (against.test(text)) return 'not passed';
  return passed.test(text) ? 'passed' : 'silent';
}

/** What one kept result says: its `result` as entered, or where that is silent the approval its office noted on it. */
export function verdictOf(at: Standpoint, errand: Errand, entry: Entry): Verdict {
  const fact = factOf(at, entry, 'result');
  const said = fact?.sort === 'text' ? verdictInWords(fact.value) : 'silent';
  if (said !== 'silent') return said;
  return isApprovedBy(entry.edition, errand.office, at.day) ? 'passed' : 'silent';
}

/** A result in hand that counts, with what it says. */
export interface KeptResult {
  readonly kind: KindId;
  readonly entry: Entry;
  readonly verdict: Verdict;
}

export function keptResult(
  at: Standpoint,
  errand: Errand,
  about: { readonly kind: KindId; readonly subject: SubjectId | undefined },
): KeptResult | undefined {
  const { kind, subject } = about;
  const entry = currentEntry(at, { kind, subject });
  if (entry === undefined) return undefined;
  const said = verdictOf(at, errand, entry);
  // Where every area is inspected by itself, a result that names none passes none.
  const nameless = errand.each !== undefined && subject !== undefined && kindOf(at, kind)?.each !== errand.each;
  return { kind, entry, verdict: nameless && said === 'passed' ? 'silent' : said };
}
