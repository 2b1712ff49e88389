import type { FactValue, Truth } from '../vocabulary/facts.ts';
import type { LotView, SameAs } from '../vocabulary/lot.ts';
import { moneyInWords } from '../vocabulary/money.ts';
import type { Agreement, Term } from '../vocabulary/practice.ts';
import { atMost, type Compared, identityOf, sameValue } from './compare.ts';
import { type KnownTerm, type TermCase, termValue } from './terms.ts';
import { dayWords } from './words.ts';

/** What an agreement comes to: it holds, it doesn't, somebody has to look, or it can't be told yet. */
export type AgreementOutcome =
  | { readonly is: 'holds' }
  | { readonly is: 'not asked' }
  /** `pair`: the first value has to give way to the second, or the second to the first. */
  | { readonly is: 'broken'; readonly say: string; readonly pair?: readonly [Known, Known] | undefined }
  /** `alike`: the two spellings, to be confirmed as the same. */
  | { readonly is: 'doubtful'; readonly say: string; readonly ask: string; readonly alike?: SameAs | undefined }
  | { readonly is: 'unknown'; readonly say: string };

export type Known = KnownTerm;

export function valueInWords(value: FactValue): string {
  switch (value.sort) {
    case 'money':
      return moneyInWords(value.value);
    case 'day':
      return dayWords(value.value);
    case 'elevation':
      return `${value.value.feet} ft ${value.value.datum}`;
    case 'yes or no':
      return value.value ? 'yes' : 'no';
    case 'percent':
      return `${round(value.value)} %`;
    case 'count':
    case 'number':
    case 'length':
    case 'area':
    case 'volume':
    case 'flow':
      return String(round(value.value));
    default:
      return `"${value.value}"`;
  }
}

/** Two decimals to read, cut off and never rounded up past a limit. */
function round(value: number): number {
  return Math.trunc(value * 100 + (value < 0 ? -1e-9 : 1e-9)) / 100;
}

function said(term: Known): string {
  return term.from === 'the rule' ? valueInWords(term.value) : `${term.from} is ${valueInWords(term.value)}`;
}

/** "Bedrooms: 4 on "House plans", 3 on "Septic permit"" where both papers say the same sort of thing. */
function bothSaid([a, b]: readonly [Known, Known]): string {
  const alike = a.paper !== undefined && b.paper !== undefined && a.paper.fact === b.paper.fact;
  if (!alike) return `${said(a)}, ${said(b)}`;
  const on = ({ value, paper }: Known): string => `${valueInWords(value)} on "${paper?.title}"`;
  return `${a.paper.fact}: ${on(a)}, ${on(b)}`;
}

/** "Cover on "Certificate of liability insurance" begins 21 Sep 2026, first day on site is 14 Sep 2026". */
function coverSaid(side: 'begins' | 'ends', cover: Known, needed: Known): string {
  if (cover.paper === undefined) return `${said(cover)}, ${said(needed)}`;
  return `Cover on "${cover.paper.title}" ${side} ${valueInWords(cover.value)}, ${said(needed)}`;
}

interface Relation {
  readonly pair: readonly [Known, Known];
  readonly relation: string;
  /** Both values in words. */
  readonly both?: string | undefined;
}

function judged(compared: Compared, { pair, relation, both = bothSaid(pair) }: Relation): AgreementOutcome {
  switch (compared) {
    case true:
      return { is: 'holds' };
    case false:
      return { is: 'broken', say: `${both}: ${relation}.`, pair };
    case 'unknown':
      return {
        is: 'doubtful',
        say: `${both}: close, but not equal.`,
        ask: askSame(pair[0].value),
        alike: alikeOf(pair[0].value, pair[1].value),
      };
    case 'no common measure':
      return { is: 'unknown', say: `${both}: they can't be compared${datumHint(pair)}.` };
  }
}

function datumHint(pair: readonly [Known, Known]): string {
  return pair.every((term) => term.value.sort === 'elevation') ? ', because their vertical datums differ' : '';
}

function askSame(value: FactValue): string {
  if (value.sort === 'address') return 'Is this the same place? Say so once, and it is remembered.';
  if (value.sort === 'parcel number') return 'Is this the same parcel? Say so once, and it is remembered.';
  return 'Is this the same person or firm? Say so once, and it is remembered.';
}

/** What would be confirmed; undefined where nothing can be remembered as the same. */
function alikeOf(a: FactValue, b: FactValue): SameAs | undefined {
  const sort = identityOf(a, b);
  return sort === undefined || typeof a.value !== 'string' || typeof b.value !== 'string'
    ? undefined
    : { sort, a: a.value, b: b.value };
}

function worst(outcomes: readonly AgreementOutcome[]): AgreementOutcome {
  for (const is of ['broken', 'doubtful', 'unknown'] as const) {
    const found = outcomes.find((outcome) => outcome.is === is);
    if (found !== undefined) return found;
  }
  return { is: 'holds' };
}

function chain(
  terms: readonly Known[],
  relation: string,
  test: (a: FactValue, b: FactValue) => Compared,
): AgreementOutcome {
  const outcomes = terms.slice(1).flatMap((term, at) => {
    const before = terms[at];
    return before === undefined ? [] : [judged(test(before.value, term.value), { pair: [before, term], relation })];
  });
  return worst(outcomes);
}

function among(terms: readonly Known[], lot: LotView): AgreementOutcome {
  const [first, ...rest] = terms;
  if (first === undefined) return { is: 'holds' };
  const answers = rest.map((term) => sameValue(first.value, term.value, lot));
  if (answers.includes(true)) return { is: 'holds' };
  const options = rest.map((term) => valueInWords(term.value)).join(', ');
  const say = `${said(first)}, which is none of ${options}.`;
  return answers.includes('unknown') ? { is: 'doubtful', say, ask: askSame(first.value) } : { is: 'broken', say };
}

/** First and second day have to span third to fourth. */
function covers(terms: readonly Known[]): AgreementOutcome {
  const [from, to, start, end] = terms;
  if (from === undefined || to === undefined || start === undefined || end === undefined) return { is: 'holds' };
  return worst([
    judged(atMost(from.value, start.value), {
      pair: [from, start],
      relation: 'too late',
      both: coverSaid('begins', from, start),
    }),
    judged(atMost(end.value, to.value), { pair: [to, end], relation: 'too early', both: coverSaid('ends', to, end) }),
  ]);
}

function decide(agreement: Agreement, terms: readonly Known[], lot: LotView): AgreementOutcome {
  switch (agreement.verb) {
    case 'same':
      return chain(terms, 'they differ', (a, b) => sameValue(a, b, lot));
    case 'at_most':
      return chain(terms, 'the first may not be more', atMost);
    case 'at_least':
      return chain(terms, 'the first may not be less', (a, b) => atMost(b, a));
    case 'not_before':
      return chain(terms, 'the first may not be the earlier', (a, b) => atMost(b, a));
    case 'covers_days':
      return covers(terms);
    case 'one_of':
      return among(terms, lot);
  }
}

const onSite: readonly Term[] = [
  { of: 'figure', figure: 'on_site_from' },
  { of: 'figure', figure: 'on_site_to' },
];

/** Two days to cover mean the days of the engagement itself. */
function termsOf(agreement: Agreement): readonly Term[] {
  const short = agreement.verb === 'covers_days' && agreement.terms.length === 2;
  return short ? [...agreement.terms, ...onSite] : agreement.terms;
}

/**
 * Judges one agreement. A paper that isn't there yet makes no disagreement (that it is missing is told elsewhere);
 * a paper that is there with a value nobody entered does: somebody has to look.
 * @param applies truth of the agreement's own condition.
 */
export function judgeAgreement(agreement: Agreement, given: TermCase, applies: Truth): AgreementOutcome {
  if (applies === false) return { is: 'not asked' };
  const values = termsOf(agreement).map((term) => termValue(given, term));
  if (values.some((value) => value.is === 'no paper')) return { is: 'not asked' };
  const unknown = values.flatMap((value) => (value.is === 'unknown' ? [value.from] : []));
  if (unknown.length > 0)
    return { is: 'unknown', say: `Not noted yet, so it can’t be compared: ${[...new Set(unknown)].join('; ')}.` };
  const outcome = decide(
    agreement,
    values.flatMap((value) => (value.is === 'known' ? [value] : [])),
    given.at.lot,
  );
  return applies === 'unknown' && outcome.is === 'broken' ? { is: 'unknown', say: outcome.say } : outcome;
}
