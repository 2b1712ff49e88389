import type { Day } from './days.ts';
import type { EditionId, PaperId, SameAs, SubjectId } from './lot.ts';
import type { Basis, ErrandId, KindId, OfficeId } from './practice.ts';

/** Heaviest first. */
export const weights = ['refused', 'questioned', 'ask first', 'good to know'] as const;
export type Weight = (typeof weights)[number];

/** What is wrong, for programs; the sentence is in `say`. */
export const findingSorts = [
  'missing',
  'not issued yet',
  'lapsed',
  'lapsing',
  'too old',
  'date unknown',
  'replaced',
  'stale',
  'not approved',
  'refused by office',
  'unreadable',
  'mark missing',
  'fact missing',
  'seal missing',
  'sheet size',
  'physical only',
  'disagree',
  'may not apply',
  'event missing',
  'errand not settled',
  'not answered',
  'too early',
  'duty at risk',
  'ask to extend',
  'caution',
  'bring',
] as const;
export type FindingSort = (typeof findingSorts)[number];

/** What puts it right: in words, and where it can be named, the errand and the earliest day it could be done. */
export interface Remedy {
  readonly say: string;
  readonly errand?: ErrandId | undefined;
  readonly office?: OfficeId | undefined;
  readonly earliest?: Day | undefined;
  /** The errand lies with them: `earliest` is when they may answer, and nobody goes on it. */
  readonly withThem?: true | undefined;
}

/** One of several ways out, with the paper it changes. */
export interface WayOut extends Remedy {
  /** "House plans", with whose it is. */
  readonly title: string;
  readonly kind: KindId;
  readonly paper?: PaperId | undefined;
  readonly edition?: EditionId | undefined;
}

/** What would go wrong on the day, with the paper, who says so, why, and the way out. */
export interface Finding {
  readonly weight: Weight;
  readonly sort: FindingSort;
  readonly errand?: ErrandId | undefined;
  readonly need?: string | undefined;
  readonly agreement?: string | undefined;
  readonly kind?: KindId | undefined;
  readonly paper?: PaperId | undefined;
  readonly edition?: EditionId | undefined;
  readonly subject?: SubjectId | undefined;
  readonly office?: OfficeId | undefined;
  /** One sentence: what. */
  readonly say: string;
  /** One sentence: why it matters here. */
  readonly why: string;
  readonly basis: Basis;
  readonly remedy: Remedy;
  /** Where papers speak against each other: the paper each way out changes. One of them is enough. */
  readonly waysOut?: readonly WayOut[] | undefined;
  /** Two spellings that may mean the same: confirmed once (`same`), it is not asked again. */
  readonly alike?: SameAs | undefined;
  /** Can't be undone: no override clears it. */
  readonly final: boolean;
}

export const errandStates = [
  "can't go yet",
  'can go',
  'left with them',
  'sent back',
  'settled',
  "doesn't apply",
] as const;
export type ErrandState = (typeof errandStates)[number];

export const paperStates = [
  'not asked for',
  'awaited',
  'in hand',
  'lapsing',
  'lapsed',
  'replaced',
  'unreadable',
  "doesn't apply",
] as const;
export type PaperState = (typeof paperStates)[number];

/** When one clock of an edition ends; `through` is the last good day, inclusive. */
export interface ClockReading {
  readonly label: string;
  readonly through: Day | 'for good' | 'unknown' | 'ended';
  readonly why: string;
}

/** All clocks of an edition taken together on a day. */
export interface Validity {
  readonly good: boolean | 'unknown';
  readonly through: Day | 'for good' | 'unknown' | 'ended';
  /** The last working day before it lapses, where `through` falls on a weekend. */
  readonly safeThrough?: Day | undefined;
  readonly clocks: readonly ClockReading[];
  /** Last day to ask for an extension, where there is one. */
  readonly askBy?: Day | undefined;
}

/** How one need of an errand is met on a day. */
export interface NeedReading {
  readonly need: string;
  readonly subject?: SubjectId | undefined;
  /** 'unknown' where the rule that asks for it rests on an unanswered question. */
  readonly applies: true | 'unknown';
  /** The kind that meets it, or the first it could be met by. */
  readonly kind: KindId;
  readonly state: PaperState;
  readonly paper?: PaperId | undefined;
  readonly edition?: EditionId | undefined;
  /** Editions that extend, amend or carry on the chosen one and count on the day: without them it isn't what it is. */
  readonly riders?: readonly EditionId[] | undefined;
  readonly validity?: Validity | undefined;
  readonly findings: readonly Finding[];
}

/** A thing that lies with an office: nobody goes on it again before they answer. */
export interface WithThem {
  readonly since: Day;
  /** When they were to answer, at the office's slow end; undefined where nobody knows how long they take. */
  readonly due?: Day | undefined;
}

/** What an office will say to this errand on this day. Findings heaviest first; needs in practice order. */
export const cameBackWords = ['sent back', 'turned away', 'not passed'] as const;
export type CameBack = (typeof cameBackWords)[number];

export interface ErrandReading {
  readonly errand: ErrandId;
  readonly subject?: SubjectId | undefined;
  readonly day: Day;
  readonly state: ErrandState;
  readonly needs: readonly NeedReading[];
  /** First day it can be gone on by what is on file, where that is later than the day asked about. */
  readonly firstDay?: Day | undefined;
  /** Where it is left with them. */
  readonly withThem?: WithThem | undefined;
  /** Where it was sent back: whether they had it, never took it, or came out and did not pass it. */
  readonly cameBack?: CameBack | undefined;
  /** All findings, those of the needs included; what one remedy cures and another finding says already stands once. */
  readonly findings: readonly Finding[];
}

/** One errand on the way, dated. */
export interface WayStop {
  readonly errand: ErrandId;
  readonly subject?: SubjectId | undefined;
  readonly state: ErrandState;
  /** First day on which it could be gone on; undefined where settled or it doesn't apply. */
  readonly earliest?: Day | undefined;
  /** When its papers should be back, at the office's slow end; never before the day asked about, for plans rest on it. */
  readonly done?: Day | undefined;
  /** Left with them: when it was to be back, reckoned from the day it was left. It stays where it is once it is past. */
  readonly due?: Day | undefined;
  /** Days it may slip without moving the target; undefined without a target. */
  readonly spare?: number | undefined;
  /** Errands that have to be settled first, direct ones only. */
  readonly waitsFor: readonly ErrandId[];
  /** Papers that will have lapsed before this errand can use them. */
  readonly lapsesFirst: readonly KindId[];
  /** Gone on now, what it yields would have lapsed before anything needs it: wait. */
  readonly tooSoon?: { readonly lapses: Day; readonly neededFrom: Day } | undefined;
  readonly heaviest?: Weight | undefined;
}

/** The whole graph for a lot, dated. */
export interface Way {
  readonly day: Day;
  readonly stops: readonly WayStop[];
  /** What can be done today, in order. */
  readonly today: readonly ErrandId[];
  readonly finish?: Day | undefined;
  readonly feesKnown: number;
  readonly feesUnknown: number;
  /** For each idle clock that runs: the cheapest inspection that restarts it. */
  readonly restarts: readonly { readonly kind: KindId; readonly errand: ErrandId; readonly by: Day }[];
}
