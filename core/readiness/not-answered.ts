import type { Visit, VisitSaid } from '../vocabulary/lot.ts';
import { isSettled } from './errand-case.ts';
import { officeTitle } from './need-case.ts';
import { type Problem, weightOf } from './problem.ts';
import type { ErrandCase, Standpoint } from './standpoint.ts';
import { stillCounting, visitsMade } from './visits.ts';
import { dayWords } from './words.ts';

function problemOf(at: Standpoint, { errand, subject }: ErrandCase, of: readonly [Visit, VisitSaid]): Problem {
  const [visit, { number, text, due }] = of;
  const word = errand.inspection ? 'Correction' : 'Comment';
  // Their own numbered word on this very lot: nothing weighs more.
  const basis = { on: 'the office told us', who: officeTitle(at, errand.office), day: visit.day } as const;
  const by = due === undefined ? '' : `, by ${dayWords(due)}`;
  return {
    weight: weightOf(basis),
    sort: 'not answered',
    errand: errand.id,
    subject: visit.subject ?? subject,
    office: errand.office,
    say: `${word} ${number} of ${dayWords(visit.day)} is not answered: "${text}"`,
    why: errand.inspection ? 'They look at it first when they come again.' : 'They wait for an answer to each.',
    basis,
    mend: {
      do: 'say',
      say: errand.inspection
        ? `Have it put right, then answer it${by}.`
        : `Answer it${by}: what was changed, and where.`,
    },
    final: false,
  };
}

/** What an office asked for by number and nobody answered yet; once the errand is settled nobody goes with it again. */
export function unanswered(at: Standpoint, one: ErrandCase): readonly Problem[] {
  if (isSettled(at, one)) return [];
  return stillCounting(visitsMade(at, one.errand, one.subject)).flatMap((visit) =>
    (visit.said ?? [])
      .filter(({ answered }) => answered === undefined || answered > at.day)
      .map((said) => problemOf(at, one, [visit, said])),
  );
}
