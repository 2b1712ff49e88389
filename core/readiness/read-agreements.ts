import type { Finding } from '../vocabulary/finding.ts';
import type { SubjectId } from '../vocabulary/lot.ts';
import type { Agreement } from '../vocabulary/practice.ts';
import { agreementProblem } from './agreement-problem.ts';
import { byWeight, type Problem } from './problem.ts';
import { findingOf } from './remedy.ts';
import { type Asked, indexLot, kindOf, type Standpoint } from './standpoint.ts';

/** For whom an agreement is judged: each subject of the kind it speaks of, or once. */
function subjectsOf(at: Standpoint, agreement: Agreement): readonly (SubjectId | undefined)[] {
  for (const term of agreement.terms) {
    const each = term.of === 'paper' ? kindOf(at, term.kind)?.each : undefined;
    if (each !== undefined) return (at.index.subjectsOf.get(each) ?? []).map((subject) => subject.id);
  }
  return [undefined];
}

/** An agreement that does not hold or can't be told, for whoever it is about. */
export interface AgreementCase {
  readonly agreement: Agreement;
  readonly problem: Problem;
}

/** All of them, in practice order. */
export function agreementCases(at: Standpoint): readonly AgreementCase[] {
  return Object.values(at.practice.agreements).flatMap((agreement) =>
    subjectsOf(at, agreement).flatMap((subject) => {
      const problem = agreementProblem(at, agreement, { subject, chosen: new Map() });
      return problem === undefined ? [] : [{ agreement, problem }];
    }),
  );
}

/** Everything in the lot's papers that disagrees, needs a look, or can't be told yet, whatever errand it touches. */
export function readAgreements(asked: Asked): readonly Finding[] {
  const at = indexLot(asked);
  return agreementCases(at)
    .map(({ problem }) => problem)
    .toSorted(byWeight)
    .map((problem) => findingOf(at, problem));
}
