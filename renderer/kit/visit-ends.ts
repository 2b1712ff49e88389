import { outcomeInWords } from '../../core/vocabulary/in-words.ts';
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

/** The one list of these words, with a capital. */
function named(outcome: VisitOutcome): string {
  return outcomeInWords(outcome).replace(/^./, (first) => first.toUpperCase());
}

const ends: readonly VisitEnd[] = [
  { id: 'planned', title: 'Planned', state: 'planned', inspection: false },
  { id: 'planned', title: 'Booked', state: 'planned', inspection: true },
  { id: 'left', title: 'Left with them', state: 'left with them', inspection: false },
  { id: 'settled', title: 'Settled', state: 'settled', inspection: false },
  { id: 'pass', title: named('pass'), state: 'settled', outcome: 'pass', inspection: true },
  {
    id: 'corrections',
    title: named('pass with corrections'),
    state: 'settled',
    outcome: 'pass with corrections',
    inspection: true,
    comments: true,
  },
  { id: 'partial', title: named('partial'), state: 'settled', outcome: 'partial', inspection: true, comments: true },
  { id: 'fail', title: named('fail'), state: 'sent back', outcome: 'fail', inspection: true, comments: true },
  { id: 'access', title: named('no access'), state: 'settled', outcome: 'no access', inspection: true },
  { id: 'back', title: 'Sent back', state: 'sent back', inspection: false, comments: true },
  {
    id: 'turned',
    title: named('turned away'),
    state: 'sent back',
    outcome: 'turned away',
    inspection: false,
    comments: true,
  },
  { id: 'letter', title: named('letter in lieu'), state: 'settled', outcome: 'letter in lieu' },
  { id: 'cancelled', title: named('cancelled'), state: 'settled', outcome: 'cancelled' },
];

/** The ends an errand can come to: of outcomes only those it may be left with; planning is always one. */
export function endsOf(about: {
  readonly inspection: boolean;
  readonly own?: boolean | undefined;
  readonly outcomes: readonly VisitOutcome[];
}): readonly VisitEnd[] {
  return ends
    .filter(({ id }) => about.own !== true || id === 'planned' || id === 'settled' || id === 'cancelled')
    .filter(({ inspection }) => inspection === undefined || inspection === about.inspection)
    .filter(({ outcome }) => outcome === undefined || about.outcomes.includes(outcome));
}
