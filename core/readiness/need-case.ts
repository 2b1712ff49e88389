import type { Truth } from '../vocabulary/facts.ts';
import type { FindingSort } from '../vocabulary/finding.ts';
import type { SubjectId } from '../vocabulary/lot.ts';
import type { Errand, KindId, Need } from '../vocabulary/practice.ts';
import type { Entry } from './lot-index.ts';
import { type Mend, type Problem, weightOf } from './problem.ts';
import { kindOf, type Standpoint } from './standpoint.ts';
import { questionsOf } from './truth.ts';

/** One need of one errand, asked for one subject. */
export interface NeedCase {
  readonly at: Standpoint;
  readonly errand: Errand;
  readonly need: Need;
  readonly subject: SubjectId | undefined;
  readonly applies: Exclude<Truth, false>;
}

export function officeTitle(at: Standpoint, office: string): string {
  return (Object.hasOwn(at.practice.offices, office) ? at.practice.offices[office]?.title : undefined) ?? office;
}

/** "Contractor licence" (Ostrey Framing): the title in quotes, with the subject where there is one. */
export function paperTitle(at: Standpoint, kind: KindId, subject: SubjectId | undefined): string {
  const known = kindOf(at, kind);
  const title = `"${known?.title ?? kind}"`;
  const name = subject === undefined || known?.each === undefined ? undefined : at.index.subjects.get(subject)?.title;
  return name === undefined ? title : `${title} (${name})`;
}

/** Which unanswered questions leave it open whether the need applies. */
export function openQuestions(at: Standpoint, condition: Need['when']): string {
  const open = condition === undefined ? [] : [...new Set(questionsOf(condition))];
  const unknown = open.filter((question) => {
    const answer = Object.hasOwn(at.lot.answers, question) ? at.lot.answers[question] : undefined;
    return answer === undefined || answer.sort === "don't know yet";
  });
  const asks = unknown.map((question) => {
    const known = Object.hasOwn(at.practice.questions, question) ? at.practice.questions[question] : undefined;
    return `"${known?.ask ?? question}"`;
  });
  return asks.join(' and ');
}

/** Why the office wants it, who says so, and what leaves it open. */
export function whyOf({ at, errand, need, applies }: NeedCase): string {
  const asks = `${officeTitle(at, errand.office)} asks for it at "${errand.title}".`;
  const why = need.why === undefined ? asks : `${need.why} ${asks}`;
  return applies === true ? why : `${why} Whether it applies hangs on your answer to ${openQuestions(at, need.when)}.`;
}

/** A problem of this need about one kind of paper, weighed by the word the need stands on. */
export function needProblem(
  given: NeedCase,
  about: { readonly kind: KindId; readonly entry?: Entry | undefined; readonly sort: FindingSort },
  told: { readonly say: string; readonly mend: Mend },
): Problem {
  const { at, errand, need, subject } = given;
  return {
    weight: weightOf(need.basis),
    sort: about.sort,
    errand: errand.id,
    need: need.id,
    kind: about.kind,
    paper: about.entry?.paper.id,
    edition: about.entry?.edition.id,
    subject,
    office: kindOf(at, about.kind)?.from,
    say: told.say,
    why: whyOf(given),
    basis: need.basis,
    mend: told.mend,
    final: false,
  };
}

/** The owner said it doesn't apply: taken at their word, but never silently. */
export function excusedProblem(given: NeedCase, kind: KindId, reason: string): Problem {
  const title = paperTitle(given.at, kind, given.subject);
  const problem = needProblem(
    given,
    { kind, sort: 'may not apply' },
    {
      say: `You noted that ${title} doesn't apply: ${reason}`,
      mend: { do: 'say', say: `Ask ${officeTitle(given.at, given.errand.office)} whether they see it the same way.` },
    },
  );
  return { ...problem, weight: 'ask first' };
}
