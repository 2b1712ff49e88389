import type { VisitState } from '../../core/vocabulary/lot.ts';
import type { VisitOutcome } from '../../core/vocabulary/practice.ts';

/** One way a going to an office, or somebody's coming out, can end. */
export interface VisitEnd {
  readonly id: string;
  readonly title: string;
  readonly state: VisitState;
  readonly outcome?: VisitOutcome;
  /** Only an inspection ends like this, or only what is none. */
  readonly inspection?: boolean;
  /** They say what is wrong, point by point. */
  readonly comments?: boolean;
}

const ends: readonly VisitEnd[] = [
  { id: 'planned', title: 'Planned', state: 'planned' },
  { id: 'left', title: 'Left with them', state: 'left with them', inspection: false },
  { id: 'settled', title: 'Settled', state: 'settled', inspection: false },
  { id: 'pass', title: 'Passed', state: 'settled', outcome: 'pass', inspection: true },
  {
    id: 'corrections',
    title: 'Passed, with corrections',
    state: 'settled',
    outcome: 'pass with corrections',
    inspection: true,
    comments: true,
  },
  { id: 'partial', title: 'Partly passed', state: 'settled', outcome: 'partial', inspection: true, comments: true },
  { id: 'fail', title: 'Failed', state: 'sent back', outcome: 'fail', inspection: true, comments: true },
  { id: 'access', title: 'Nobody let them in', state: 'settled', outcome: 'no access', inspection: true },
  { id: 'back', title: 'Sent back', state: 'sent back', inspection: false, comments: true },
  { id: 'letter', title: 'A letter instead', state: 'settled', outcome: 'letter in lieu' },
  { id: 'cancelled', title: 'Called off', state: 'settled', outcome: 'cancelled' },
];

/** The ends an errand can come to: an inspection only those its office leaves it with; planning is always one. */
export function endsOf(about: {
  readonly inspection: boolean;
  readonly outcomes: readonly VisitOutcome[];
}): readonly VisitEnd[] {
  return ends
    .filter(({ inspection }) => inspection === undefined || inspection === about.inspection)
    .filter(({ outcome }) => !about.inspection || outcome === undefined || about.outcomes.includes(outcome));
}
