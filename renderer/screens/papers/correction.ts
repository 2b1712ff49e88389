import type { RequestArgument } from '../../../core/desk/contract/requests.ts';
import type { PagesAnswer } from '../../../core/desk/contract/screen-answers.ts';
import type { Day } from '../../../core/vocabulary/days.ts';
import { isFactSort, sayAgain, wrongWith } from './fact-said.ts';
import type { LinkSaid } from './LinkFields.tsx';

/** A paper's card as it stands in the slip while it is being corrected. */
export interface Correction {
  readonly number: string;
  readonly issuer: string;
  readonly revision: string;
  readonly issued: Day | undefined;
  readonly effective: Day | undefined;
  readonly goodThrough: Day | undefined;
  readonly facts: Readonly<Record<string, string>>;
  readonly marks: readonly string[];
}

export function correctionOf(paper: PagesAnswer): Correction {
  const { number, issuer, revision, issued, effective, goodThrough, facts, marks } = paper;
  const said = facts.map(({ fact, sort, words }) => [fact, sayAgain(sort, words)]);
  return { number, issuer, revision, issued, effective, goodThrough, facts: Object.fromEntries(said), marks };
}

/** Where a kind has a fact for the revision, that is the one asked for. */
export function hasRevisionFact({ facts }: Pick<PagesAnswer, 'facts'>): boolean {
  return facts.some(({ sort }) => sort === 'revision');
}

export function linksOf({ links }: PagesAnswer): readonly LinkSaid[] {
  return links.filter(({ direction }) => direction === 'to').map(({ word, edition }) => ({ word, to: edition }));
}

/** The revision stands in one place only for the person: said as the kind's fact, it is the edition's too. */
function withRevision(paper: PagesAnswer, now: Correction): Correction {
  const fact = paper.facts.find(({ sort }) => sort === 'revision')?.fact;
  const said = fact === undefined ? '' : (now.facts[fact] ?? '').trim();
  return said === '' ? now : { ...now, revision: said };
}

const texts = ['number', 'issuer', 'revision'] as const;
const days = ['issued', 'effective', 'goodThrough'] as const;

/** Only what was changed is sent; what was emptied is cleared. Undefined where nothing was changed. */
export function changedOnly(paper: PagesAnswer, said: Correction): RequestArgument<'correct'> | undefined {
  const before = correctionOf(paper);
  const now = withRevision(paper, said);
  const changedTexts = texts.filter((field) => now[field].trim() !== before[field]);
  const changedDays = days.filter((field) => now[field] !== before[field]);
  const cleared = [
    ...changedTexts.filter((field) => now[field].trim() === ''),
    ...changedDays.filter((field) => now[field] === undefined),
  ];
  const facts = Object.entries(now.facts).filter(
    ([fact, words]) => words.trim() !== '' && words !== before.facts[fact],
  );
  const marks = now.marks.filter((mark) => !before.marks.includes(mark));
  const unmark = before.marks.filter((mark) => !now.marks.includes(mark));
  if (changedTexts.length + changedDays.length + facts.length + marks.length + unmark.length === 0) return undefined;
  return {
    edition: paper.edition,
    ...Object.fromEntries(
      changedTexts.filter((field) => now[field].trim() !== '').map((field) => [field, now[field].trim()]),
    ),
    ...Object.fromEntries(changedDays.flatMap((field) => (now[field] === undefined ? [] : [[field, now[field]]]))),
    facts: Object.fromEntries(facts),
    marks,
    unmark,
    clear: cleared,
  };
}

/** A fact can be put right but not emptied; undoing the act that noted it takes it away. */
export function emptiedFacts(paper: PagesAnswer, now: Correction): readonly string[] {
  return paper.facts
    .filter(({ fact, words }) => words !== '' && (now.facts[fact] ?? '').trim() === '')
    .map(({ title }) => title);
}

export function isReadable(paper: PagesAnswer, now: Correction): boolean {
  return paper.facts.every(
    ({ fact, sort, title }) => !isFactSort(sort) || wrongWith(sort, now.facts[fact] ?? '', title) === undefined,
  );
}
