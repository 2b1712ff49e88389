import { figures } from '../figures/index.ts';
import type { FactValue } from '../vocabulary/facts.ts';
import type { SubjectId } from '../vocabulary/lot.ts';
import type { KindId, QuestionId, Term } from '../vocabulary/practice.ts';
import { countingEntry } from './current.ts';
import type { Entry } from './lot-index.ts';
import { kindOf, type Standpoint } from './standpoint.ts';
import { factOf } from './whole-edition.ts';

/** A value that is known, and where it stands: `from` is "Bedrooms on "House plans"", `paper` its two halves. */
export interface KnownTerm {
  readonly is: 'known';
  readonly value: FactValue;
  readonly from: string;
  readonly entry?: Entry | undefined;
  readonly paper?: { readonly fact: string; readonly title: string } | undefined;
}

/** The value of a term, or why there is none: the paper isn't there, or the paper is and the value isn't known. */
export type TermValue =
  | KnownTerm
  | { readonly is: 'no paper'; readonly kind: KindId }
  | { readonly is: 'unknown'; readonly from: string; readonly entry?: Entry | undefined };

/** For whom terms are read, and which editions an errand has already picked for its needs. */
export interface TermCase {
  readonly at: Standpoint;
  readonly subject: SubjectId | undefined;
  readonly chosen: ReadonlyMap<KindId, Entry>;
}

const identityWords: Readonly<Record<string, 'owner' | 'place' | 'parcel'>> = {
  owner: 'owner',
  address: 'place',
  place: 'place',
  parcel: 'parcel',
};

const identitySorts = { owner: 'name', place: 'address', parcel: 'parcel number' } as const;

function paperTerm(given: TermCase, kind: KindId, fact: string): TermValue {
  const { at, subject } = given;
  const entry = given.chosen.get(kind) ?? countingEntry(at, { kind, subject });
  if (entry === undefined) return { is: 'no paper', kind };
  const rule = kindOf(at, kind);
  const title = rule !== undefined && Object.hasOwn(rule.facts, fact) ? rule.facts[fact]?.title : undefined;
  const paper = { fact: title ?? fact.replaceAll('_', ' '), title: rule?.title ?? kind };
  const from = `${paper.fact} on "${paper.title}"`;
  const value = factOf(at, entry, fact);
  return value === undefined ? { is: 'unknown', from, entry } : { is: 'known', value, from, entry, paper };
}

/** The lot's latest own name, place or parcel, where no question of that name was answered. */
function identityTerm(at: Standpoint, question: QuestionId): TermValue | undefined {
  const sort = Object.hasOwn(identityWords, question) ? identityWords[question] : undefined;
  if (sort === undefined) return undefined;
  const now = at.lot.identities.filter(
    (identity) => identity.sort === sort && (identity.from === undefined || identity.from <= at.day),
  );
  const text = now.findLast((identity) => identity.to === undefined || identity.to >= at.day)?.text ?? now.at(-1)?.text;
  if (text === undefined) return undefined;
  return { is: 'known', value: { sort: identitySorts[sort], value: text }, from: `the lot's own ${question}` };
}

function lotTerm(at: Standpoint, question: QuestionId): TermValue {
  const answer = Object.hasOwn(at.lot.answers, question) ? at.lot.answers[question] : undefined;
  const asked = Object.hasOwn(at.practice.questions, question) ? at.practice.questions[question]?.ask : undefined;
  const from = asked === undefined ? `your answer on ${question.replaceAll('_', ' ')}` : `your answer to "${asked}"`;
  if (answer !== undefined && answer.sort !== "don't know yet") return { is: 'known', value: answer, from };
  return identityTerm(at, question) ?? { is: 'unknown', from };
}

function figureTerm(given: TermCase, id: string): TermValue {
  const figure = Object.hasOwn(figures, id) ? figures[id] : undefined;
  if (figure === undefined) return { is: 'unknown', from: `the figure "${id}", which is not known here` };
  const args: Record<string, FactValue | undefined> = {};
  let missing: KindId | undefined;
  for (const [name, sources] of Object.entries(figure.needs)) {
    const values = sources.map((source) => termValue(given, source));
    const known = values.find((value) => value.is === 'known');
    args[name] = known?.value;
    const absent = values.find((value) => value.is === 'no paper');
    if (known === undefined && absent !== undefined && values.every((value) => value.is === 'no paper'))
      missing = absent.kind;
  }
  const subject = given.subject === undefined ? undefined : given.at.index.subjects.get(given.subject);
  const answer = figure.compute(args, { day: given.at.day, subject });
  const from = figure.title.toLowerCase();
  if (answer !== 'unknown') return { is: 'known', value: answer, from };
  return missing === undefined ? { is: 'unknown', from } : { is: 'no paper', kind: missing };
}

export function termValue(given: TermCase, term: Term): TermValue {
  switch (term.of) {
    case 'paper':
      return paperTerm(given, term.kind, term.fact);
    case 'lot':
      return lotTerm(given.at, term.question);
    case 'figure':
      return figureTerm(given, term.figure);
    case 'value': {
      const { value } = term;
      const fact: FactValue = typeof value === 'number' ? { sort: 'number', value } : { sort: 'text', value };
      return { is: 'known', value: fact, from: 'the rule' };
    }
  }
}
