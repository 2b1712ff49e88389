import type { RequestArgument } from '../../../core/desk/contract/requests.ts';
import type { PagesAnswer } from '../../../core/desk/contract/screen-answers.ts';
import type { Day } from '../../../core/vocabulary/days.ts';
import type { Subject } from '../../../core/vocabulary/lot.ts';
import type { Practice } from '../../../core/vocabulary/practice.ts';
import { isFactSort, sayAgain, wrongWith } from './fact-said.ts';
import type { LinkSaid } from './LinkFields.tsx';

/** A paper's card as it stands in the slip while it is being corrected. */
export interface Correction {
  readonly kind: string;
  /** Said only of papers without a kind. */
  readonly title: string;
  readonly subject: string | undefined;
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
  const { kind, title, subject, number, issuer, revision, issued, effective, goodThrough, facts, marks } = paper;
  const said = facts.map(({ fact, sort, words }) => [fact, sayAgain(sort, words)]);
  const printed = { number, issuer, revision, issued, effective, goodThrough };
  return { kind, title, subject, ...printed, facts: Object.fromEntries(said), marks };
}

/** Where a kind has a fact for the revision, that is the one asked for. */
export function hasRevisionFact({ facts }: Pick<PagesAnswer, 'facts'>): boolean {
  return facts.some(({ sort }) => sort === 'revision');
}

interface KindSaid {
  readonly kind: string;
  readonly practice: Practice;
  readonly subjects: readonly Subject[];
}

/** Another kind was picked: whose it is stays picked only where that kind is kept per such a one. */
export function asKind(
  now: Correction,
  paper: Pick<PagesAnswer, 'subject'>,
  { kind, practice, subjects }: KindSaid,
): Correction {
  const each = practice.papers[kind]?.each;
  const fits = each !== undefined && subjects.find(({ id }) => id === now.subject)?.sort === each;
  return { ...now, kind, subject: fits ? now.subject : paper.subject };
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

/** What the paper is after all, where that was changed; a title is said only where there is no kind. */
function keptAs(before: Correction, now: Correction): Pick<RequestArgument<'correct'>, 'kind' | 'title' | 'subject'> {
  const title = now.title.trim();
  return {
    ...(now.kind === before.kind ? {} : { kind: now.kind }),
    ...(now.kind !== 'other' || title === '' || title === before.title ? {} : { title }),
    ...(now.subject === undefined || now.subject === before.subject ? {} : { subject: now.subject }),
  };
}

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
  // Facts of the old kind are not asked for again: those the new one knows stay by themselves.
  const facts = Object.entries(now.kind === before.kind ? now.facts : {}).filter(
    ([fact, words]) => words.trim() !== '' && words !== before.facts[fact],
  );
  const marks = now.marks.filter((mark) => !before.marks.includes(mark));
  const unmark = before.marks.filter((mark) => !now.marks.includes(mark));
  const anew = keptAs(before, now);
  const all =
    Object.keys(anew).length + changedTexts.length + changedDays.length + facts.length + marks.length + unmark.length;
  if (all === 0) return undefined;
  return {
    edition: paper.edition,
    ...anew,
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
