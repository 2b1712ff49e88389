import type { ErrandAnswer, PlanAnswer } from '../../../core/desk/contract/answers.ts';
import type { ErrorShape } from '../../../core/vocabulary/errors.ts';
import type { Practice } from '../../../core/vocabulary/practice.ts';

/** Which errand, and for which firm, area or draw. */
export interface Target {
  readonly errand: string;
  readonly subject?: string | undefined;
}

export type NeedRow = ErrandAnswer['needs'][number];

/** All the parts of the screen look at. */
export interface Sight {
  readonly target: Target;
  readonly answer: ErrandAnswer;
  /** Not there yet while it is being laid out, or where it can't be. */
  readonly plan: PlanAnswer | undefined;
  /** Why it can't be laid out. */
  readonly planTrouble: ErrorShape | undefined;
  /** For titles of kinds, offices and errands; the screen stands without it. */
  readonly practice: Practice | undefined;
}

export function kindTitle(practice: Practice | undefined, kind: string): string {
  return practice?.papers[kind]?.title ?? kind.replaceAll('-', ' ');
}

export function errandTitle(practice: Practice | undefined, errand: string): string {
  return practice?.errands[errand]?.title ?? errand.replaceAll('-', ' ');
}
