import type { Day } from '../../vocabulary/days.ts';

/** A paper in hand, or a firm's cover, that ends within the days asked about, or has ended and is still needed. */
export interface LapsesRow {
  readonly title: string;
  readonly number: string;
  readonly kind: string;
  readonly subject?: string | undefined;
  /** The last good day, and how many days away that is: fewer than none where it has lapsed. */
  readonly through: Day;
  readonly days: number;
  /** The last day to ask for more time, where practice knows one; may have passed. */
  readonly askBy?: Day | undefined;
  /** Why it matters, and what to do: whole sentences. */
  readonly why: string;
  readonly remedy: string;
  /** The paper's own screen. */
  readonly paper?: string | undefined;
}

export interface LapsesAnswer {
  readonly day: Day;
  readonly within: number;
  readonly until: Day;
  /** What has lapsed heads the list; then what has to be done first. */
  readonly rows: readonly LapsesRow[];
}

/** Somebody who holds a copy that another edition took the place of. */
export interface OldCopyRow {
  readonly to: string;
  readonly day: Day;
  readonly how: string;
  readonly copies: number;
  /** "revision C", the old edition's number or its day. */
  readonly holds: string;
  readonly handover: string;
}

/** A paper made from an edition that no longer is the newest; its maker has to be told. */
export interface MadeFromOldRow {
  readonly paper: string;
  readonly title: string;
  readonly number: string;
  /** Who makes it. */
  readonly office: string;
  readonly from: string;
}

/** A paper that changed, and whom to tell. */
export interface ChangedRow {
  readonly paper: string;
  readonly title: string;
  /** What counts now: "revision D". */
  readonly now: string;
  readonly since: Day;
  readonly holders: readonly OldCopyRow[];
  readonly makers: readonly MadeFromOldRow[];
  /** A newer edition that an office has yet to approve: nobody's copy is old by it, and these are told once it is. */
  readonly pending?:
    | {
        readonly next: string;
        readonly dated: Day;
        readonly office: string;
        readonly tell: readonly OldCopyRow[];
        readonly makers: readonly MadeFromOldRow[];
      }
    | undefined;
}

/** A paper in hand that an office asks for and was never given in this edition. */
export interface UnseenRow {
  readonly paper: string;
  readonly title: string;
  readonly number: string;
  /** The errand that asks for it. */
  readonly errand: string;
  readonly errandTitle: string;
  /** The older edition they hold, where they do. */
  readonly holds?: string | undefined;
}
