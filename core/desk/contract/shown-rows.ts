import type { Day } from '../../vocabulary/days.ts';
import type { PaperState } from '../../vocabulary/finding.ts';
import type { NeedUse, Office } from '../../vocabulary/practice.ts';

/** Rows that several screens show alike. */

/** What a person has to know of an office to go there; `appear` is the errand's own word where it says so itself. */
export type OfficeCard = Omit<Office, 'exists' | 'basis'>;

export interface CarryRow {
  readonly need: string;
  readonly kind: string;
  readonly title: string;
  readonly use: NeedUse;
  readonly copies: number;
  readonly state: PaperState;
  readonly edition?: string | undefined;
  /** Nothing speaks against it that weighs more than "good to know". */
  readonly good: boolean;
}

export interface CommentRow {
  readonly comment: string;
  readonly number: string;
  readonly text: string;
  readonly day: Day;
  readonly answer?: string | undefined;
  readonly answered?: Day | undefined;
  /** Until when they want it answered, and the paper that shows it is put right. */
  readonly due?: Day | undefined;
  readonly evidence?: { readonly edition: string; readonly paper: string; readonly title: string } | undefined;
}

/** One going that was made: how it ended, and all that was said of it. */
export interface PastVisitRow {
  readonly visit: string;
  readonly day: Day;
  /** How it ended: "sent back", "not passed". */
  readonly words: string;
  readonly note?: string | undefined;
  readonly comments: readonly CommentRow[];
}

/** What somebody at an office said otherwise than the rules on file. */
export interface ToldRow {
  readonly word: string;
  readonly who: string;
  readonly day: Day;
  readonly said: string;
}

/** One clock, ready to be read: "printed date: good through 14 Mar 2026". */
export interface ClockRow {
  readonly label: string;
  readonly words: string;
  readonly why: string;
}
