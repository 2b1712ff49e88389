import type { Day } from '../../vocabulary/days.ts';
import type { ErrandState, Weight, WithThem } from '../../vocabulary/finding.ts';
import type { VisitState } from '../../vocabulary/lot.ts';
import type { VisitOutcome } from '../../vocabulary/practice.ts';
import type { AmendableRow } from './practice-answers.ts';
import type { CarryRow, ClockRow, CommentRow, OfficeCard } from './shown-rows.ts';

/** Until when a day has to be booked, and a booking that stands. */
export interface BookingRow {
  /** "1 working day". */
  readonly ahead: string;
  /** Time of day at which they stop taking bookings. */
  readonly until?: string | undefined;
  /** The first day they can come at all. */
  readonly soonest: Day;
  /** The last day to book it for that day. */
  readonly by: Day;
}

/** A day agreed with them and not come to pass yet. */
export interface BookedRow {
  readonly visit: string;
  readonly day: Day;
}

/** Something that can't be undone and that waits for an inspection. */
export interface HoldOnRow {
  readonly hold: string;
  readonly title: string;
  readonly say: string;
}

export interface MadeVisitRow {
  readonly visit: string;
  readonly day: Day;
  readonly state: VisitState;
  readonly outcome?: VisitOutcome | undefined;
  /** "passed in part", "not passed", "left with them". */
  readonly words: string;
  readonly note?: string | undefined;
}

/** One inspection, or another errand for which somebody comes out to the site. */
export interface InspectionRow {
  readonly errand: string;
  readonly subject?: string | undefined;
  readonly subjectTitle?: string | undefined;
  readonly title: string;
  readonly office: OfficeCard;
  /** False where somebody comes to look and it is no inspection of the building office: a county road, a health office. */
  readonly inspection: boolean;
  readonly state: ErrandState;
  /** What is recorded of it, never more: "passed inspection recorded on 3 Aug 2026 by Building inspections". */
  readonly recorded: string;
  readonly earliest?: Day | undefined;
  readonly spare?: number | undefined;
  readonly heaviest?: Weight | undefined;
  /** What has to be settled first, direct ones only. */
  readonly waitsFor: readonly { readonly errand: string; readonly title: string }[];
  /** What lies ready on the site when they come. */
  readonly onSite: readonly string[];
  readonly bring: readonly string[];
  readonly ask: readonly string[];
  readonly carry: readonly CarryRow[];
  /** Since when it lies with them, and when they were to answer. */
  readonly withThem?: WithThem | undefined;
  /** Absent where nobody has to book any more. */
  readonly booking?: BookingRow | undefined;
  readonly booked?: BookedRow | undefined;
  /** Cents. */
  readonly fee?: number | undefined;
  readonly feeNote?: string | undefined;
  /** Cents; what coming a second time costs. */
  readonly againFee?: number | undefined;
  /** They came before and it was not settled: the next coming is a second one. */
  readonly again: boolean;
  /** The words this office may leave it with. */
  readonly outcomes: readonly VisitOutcome[];
  /** Kinds it brings, with their titles. */
  readonly yields: readonly { readonly kind: string; readonly title: string }[];
  /** What may not be done before it is settled. */
  readonly holds: readonly HoldOnRow[];
  /** Titles of papers whose idle clock it starts anew. */
  readonly restarts: readonly string[];
  /** Oldest first. */
  readonly visits: readonly MadeVisitRow[];
  readonly caution?: string | undefined;
}

/** A hold with what is recorded of every inspection it waits for. */
export interface GateRow {
  readonly hold: string;
  readonly title: string;
  readonly say: string;
  readonly event: string;
  readonly eventTitle: string;
  /** It waits for something, or hangs on a question not answered yet. */
  readonly shut: boolean;
  readonly unknown: boolean;
  /** The day it was noted as done. */
  readonly happened?: Day | undefined;
  readonly rests: readonly {
    readonly errand: string;
    readonly subject?: string | undefined;
    readonly title: string;
    readonly settled: boolean;
    readonly recorded: string;
  }[];
}

/** A permit that lapses unless somebody inspects. */
export interface IdleRow {
  readonly kind: string;
  readonly title: string;
  readonly number: string;
  readonly paper: string;
  /** The last good day; it lapses the day after. */
  readonly through: Day;
  readonly lapses: Day;
  /** Days from the day asked about to the last good day; negative where that is past. */
  readonly days: number;
  /** "180 days". */
  readonly span: string;
  /** Whether an inspection made is enough, or it must be approved. */
  readonly since: 'inspection' | 'approved inspection';
  /** The inspection it runs from; undefined: from the day of issue. */
  readonly last?: Day | undefined;
  /** The cheapest inspection still to come that starts it anew. */
  readonly restart?:
    | {
        readonly errand: string;
        readonly subject?: string | undefined;
        readonly title: string;
        /** Cents; what it costs now, coming again included. */
        readonly fee?: number | undefined;
        readonly feeNote?: string | undefined;
        readonly earliest?: Day | undefined;
        readonly inTime: boolean;
        /** Something has to be settled before it: nobody can book it yet. */
        readonly waits: boolean;
        readonly withThem?: WithThem | undefined;
        readonly booking?: BookingRow | undefined;
      }
    | undefined;
  /** The office grants more time on asking, and until when it may be asked for. */
  readonly extendable: boolean;
  readonly askBy?: Day | undefined;
  readonly clocks: readonly ClockRow[];
}

/** Corrections of one visit by their number, those answered as well. */
export interface CorrectionsRow {
  readonly visit: string;
  readonly errand: string;
  readonly subject?: string | undefined;
  readonly title: string;
  readonly day: Day;
  /** "passed with corrections", "not passed". */
  readonly words: string;
  readonly comments: readonly CommentRow[];
  readonly open: number;
}

export interface InspectionsAnswer {
  readonly day: Day;
  /** In the order of the way; settled ones keep their place in it. */
  readonly rows: readonly InspectionRow[];
  readonly gates: readonly GateRow[];
  readonly idle: readonly IdleRow[];
  /** Newest visit first; a visit whose errand was settled by a later one is no more told. */
  readonly corrections: readonly CorrectionsRow[];
  /** Inspections other places hold by themselves and this one, as far as its practice says, does not. */
  readonly offered: readonly {
    readonly errand: string;
    readonly title: string;
    readonly office: string;
    /** The rule that brings it in, for `clerk-said`. */
    readonly rule: AmendableRow;
  }[];
}
