import type { Truth } from '../vocabulary/facts.ts';
import type { Finding, Weight } from '../vocabulary/finding.ts';
import type { EditionId, PaperId, SubjectId } from '../vocabulary/lot.ts';
import type { Basis, ErrandId, KindId, OfficeId } from '../vocabulary/practice.ts';

/** What would put a problem right; turned into words once the way is dated. */
export type Mend =
  | { readonly do: 'get'; readonly kind: KindId; readonly subject: SubjectId | undefined }
  | {
      readonly do: 'approve';
      readonly kind: KindId;
      readonly office: OfficeId;
      readonly subject: SubjectId | undefined;
    }
  | { readonly do: 'settle'; readonly errand: ErrandId; readonly subject: SubjectId | undefined }
  | {
      readonly do: 'say';
      readonly say: string;
      readonly errand?: ErrandId | undefined;
      /** Where it has to come before something else: what has to have happened, "the well noted as drilled". */
      readonly first?: string | undefined;
    }
  /** Papers that speak against each other: any one of them changed puts it right. */
  | { readonly do: 'choose'; readonly otherwise: string; readonly among: readonly Change[] };

/** One paper changed so that it agrees with another. */
export interface Change {
  readonly kind: KindId;
  readonly subject: SubjectId | undefined;
  readonly paper: PaperId | undefined;
  readonly edition: EditionId | undefined;
  /** "goes back to 3", "is made to say "B"". */
  readonly becomes: string;
}

/** A finding whose remedy is still to be worded. */
export type Problem = Omit<Finding, 'remedy'> & { readonly mend: Mend };

/**
 * The weight of an unmet rule. Only the office's own word and what is published may say "refused";
 * on common practice alone nobody may claim it.
 */
export function weightOf(basis: Basis): Weight {
  return basis.on === 'common practice' ? 'questioned' : 'refused';
}

const order: Readonly<Record<Weight, number>> = { refused: 0, questioned: 1, 'ask first': 2, 'good to know': 3 };

/** Heaviest first; findings of one weight keep their order. */
export function byWeight(a: { readonly weight: Weight }, b: { readonly weight: Weight }): number {
  return order[a.weight] - order[b.weight];
}

export function heaviest(findings: readonly { readonly weight: Weight }[]): Weight | undefined {
  let found: Weight | undefined;
  for (const { weight } of findings) {
    if (found === undefined || order[weight] < order[found]) found = weight;
  }
  return found;
}

/** The lighter of two weights. */
export function lighter(a: Weight, b: Weight): Weight {
  return order[a] >= order[b] ? a : b;
}

/** While nobody knows whether the errand is one for this lot, nothing about it can be more than a question. */
export function asFarAsKnown(applies: Truth, problem: Problem): Problem {
  return applies === 'unknown' ? { ...problem, weight: lighter(problem.weight, 'ask first') } : problem;
}
