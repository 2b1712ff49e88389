import type { Finding } from '../vocabulary/finding.ts';
import type { SubjectId } from '../vocabulary/lot.ts';
import type { Agreement } from '../vocabulary/practice.ts';
import { agreementProblem } from './agreement-problem.ts';
import { byWeight } from './problem.ts';
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

/** Everything in the lot's papers that disagrees, needs a look, or can't be told yet, whatever errand it touches. */
export function readAgreements(asked: Asked): readonly Finding[] {
  const at = indexLot(asked);
  return Object.values(asked.practice.agreements)
    .flatMap((agreement) =>
      subjectsOf(at, agreement).flatMap(
        (subject) => agreementProblem(at, agreement, { subject, chosen: new Map() }) ?? [],
      ),
    )
    .toSorted(byWeight)
    .map((problem) => findingOf(at, problem));
}
