import type { PaperRow, WayAnswer } from '../../../core/desk/contract/answers.ts';
import type { Day } from '../../../core/vocabulary/days.ts';
import type { ErrandState, PaperState } from '../../../core/vocabulary/finding.ts';
import type { Subject } from '../../../core/vocabulary/lot.ts';
import type { Practice } from '../../../core/vocabulary/practice.ts';

export type WayRow = WayAnswer['stops'][number];

/** An errand as it stands on the way; the numbers run in the order of their days. */
export interface Station {
  readonly key: string;
  readonly number: number;
  readonly row: WayRow;
  readonly title: string;
  readonly state: ErrandState;
  /** Where it stands on the sheet. */
  readonly at: Day;
  /** On whose word: a visit or the way itself; a paper it brought; or nothing, and it stands with the one before it. */
  readonly dated: 'surely' | 'by its paper' | 'not';
  readonly stretch: string;
  /** Keys of the stations it waits for. */
  readonly waitsFor: readonly string[];
}

/** Something that may not be done before its errands are settled. */
export interface Gate {
  readonly key: string;
  readonly title: string;
  readonly say: string;
  /** When what it waits for should be settled; undefined where nobody knows. */
  readonly opens: Day | undefined;
  readonly waitsFor: readonly string[];
  readonly unknown: boolean;
}

/** The life of a paper: from its issue to its last good day. */
export interface Life {
  readonly key: string;
  readonly title: string;
  /** The firm, area or draw it is kept for. */
  readonly subject: string | undefined;
  readonly kind: string;
  readonly state: PaperState;
  /** Expected where it isn't there yet. */
  readonly from: Day | undefined;
  readonly expected: boolean;
  /** Undefined: with no end, or not known yet. */
  readonly through: Day | undefined;
  /** Last good days of all of them, where several of a kind share the strip. */
  readonly ends: readonly Day[];
  /** Stations that need it only after it will have lapsed. */
  readonly lateFor: readonly Station[];
  /** Stations that still ask for it. */
  readonly needed: readonly Station[];
  readonly link: string | undefined;
}

export interface WayModel {
  readonly today: Day;
  readonly finish: Day | undefined;
  readonly target: Day | undefined;
  readonly stations: readonly Station[];
  readonly aside: readonly WayRow[];
  readonly gates: readonly Gate[];
  readonly lives: readonly Life[];
  /** The stretches of the way, in the order they are walked. */
  readonly stretches: readonly string[];
}

export interface WaySources {
  readonly way: WayAnswer;
  readonly papers: readonly PaperRow[];
  readonly practice: Practice | undefined;
  readonly subjects: readonly Subject[];
  readonly target: Day | undefined;
}
