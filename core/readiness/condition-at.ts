import type { Truth } from '../vocabulary/facts.ts';
import type { Condition } from '../vocabulary/practice.ts';
import { stands } from './current.ts';
import { happenedOn, type Standpoint } from './standpoint.ts';
import { evaluate } from './truth.ts';

/** Truth of a condition on the day asked about. */
export function conditionAt(at: Standpoint, condition: Condition): Truth {
  return evaluate(condition, {
    answer: (question) => (Object.hasOwn(at.lot.answers, question) ? at.lot.answers[question] : undefined),
    happened: (event) => happenedOn(at, event) !== undefined,
    held: (kind) => (at.index.byKind.get(kind) ?? []).some((entry) => stands(at, entry)),
  });
}

/** A missing condition is true. */
export function appliesAt(at: Standpoint, condition: Condition | undefined): Truth {
  return condition === undefined ? true : conditionAt(at, condition);
}
