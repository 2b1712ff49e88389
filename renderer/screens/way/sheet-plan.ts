import type { Day } from '../../../core/vocabulary/days.ts';
import type { Axis } from './axis.ts';
import type { Gate, Life, Station } from './model.ts';

/**
 * The sheet's geometry, in sixteenths of the root letter size (so that it grows with the letters).
 * Plan above: slanted names, numbered stations, leaders, the baseline. Profile below: the lives of the papers.
 */
export interface PlacedStation {
  readonly station: Station;
  /** Middle of its number. */
  readonly x: number;
  /** Where it truly stands on the baseline. */
  readonly foot: number;
}

export interface PlacedGate {
  readonly gate: Gate;
  readonly x: number;
  readonly foot: number;
}

export interface PlacedLife {
  readonly life: Life;
  readonly words: string;
  readonly y: number;
  readonly from: number;
  readonly to: number;
  /** Where the red part ends: it is needed there. */
  readonly gapTo: number | undefined;
  /** It began before the sheet does. */
  readonly torn: boolean;
  /** No end is known: the strip runs on. */
  readonly open: boolean;
  /** The words have no room inside and stand behind it. */
  readonly outside: boolean;
  /** Where stations need it. */
  readonly ticks: readonly number[];
  /** Where earlier ones of its kind end. */
  readonly ears: readonly number[];
}

export interface Flag {
  readonly sort: 'today' | 'finish' | 'target';
  readonly words: string;
  readonly x: number;
  readonly row: number;
}

export interface SheetPlan {
  readonly width: number;
  readonly height: number;
  /** Right end of the axis. */
  readonly end: number;
  readonly numbers: number;
  readonly baseline: number;
  readonly profile: { readonly top: number; readonly bottom: number };
  /** Top of the rows of flags: today, as it stands, target. */
  readonly flagTop: number;
  readonly months: readonly { readonly x: number; readonly words: string }[];
  readonly weeks: readonly number[];
  readonly stations: readonly PlacedStation[];
  readonly gates: readonly PlacedGate[];
  readonly lives: readonly PlacedLife[];
  readonly flags: readonly Flag[];
  readonly today: number;
  /** Settled stations from before the sheet begins. */
  readonly earlier: number;
}

export interface SheetWish {
  /** Width of a day; a fit is worked out by `fitting`. */
  readonly day: number;
  readonly endless: boolean;
  readonly expected: boolean;
}

/** Where a day lies. */
export interface Along {
  readonly axis: Axis;
  readonly at: (day: Day) => number;
}
