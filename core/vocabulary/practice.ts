import type { Day, Lead, Span } from './days.ts';
import type { FactSort } from './facts.ts';
import type { FormRule } from './forms.ts';
import type { Cents } from './money.ts';
import type { SheetName } from './sheets.ts';

/** Ids as they stand in a practice file: lower case words joined by "-". */
export type OfficeId = string;
export type KindId = string;
export type ErrandId = string;
export type FactId = string;
export type EventId = string;
export type QuestionId = string;

/** On whose word a rule stands. Only the first two may refuse (or what can't be undone). */
export type Basis =
  | { readonly on: 'the office told us'; readonly who: string; readonly day: Day; readonly note?: string | undefined }
  | { readonly on: 'published'; readonly source: string; readonly read: Day }
  /** `after` names where a rule of common practice is taken from: not this office's word, so it never refuses. */
  | { readonly on: 'common practice'; readonly after?: string | undefined; readonly read?: Day | undefined };

/** The sort of an office decides where its divider tabs sit; order here is the order of tab positions. */
export const officeSorts = [
  'land',
  'health',
  'roads',
  'planning',
  'building',
  'power and water',
  'lender',
  'insurer',
  'trade',
  'licensed person',
  'tax',
  'owner',
] as const;
export type OfficeSort = (typeof officeSorts)[number];

export interface Office {
  readonly id: OfficeId;
  readonly title: string;
  readonly sort: OfficeSort;
  /** False where the place has no such office: its errands don't apply. */
  readonly exists: boolean;
  readonly street?: string | undefined;
  readonly phone?: string | undefined;
  readonly hours?: string | undefined;
  /** Latest time of day at which it takes papers in, "15:30". */
  readonly intakeUntil?: string | undefined;
  readonly payee?: string | undefined;
  readonly pays?: string | undefined;
  readonly appear?: string | undefined;
  readonly appointment?: string | undefined;
  readonly basis: Basis;
}

/** The closed rule language, checked and spelled out. Unknown facts make it `unknown`, never false. */
export type Condition =
  | { readonly op: 'is'; readonly question: QuestionId; readonly values: readonly (string | number | boolean)[] }
  | { readonly op: 'over' | 'under'; readonly question: QuestionId; readonly value: number }
  | { readonly op: 'happened'; readonly event: EventId }
  | { readonly op: 'held'; readonly kind: KindId }
  | { readonly op: 'and' | 'or'; readonly of: readonly Condition[] }
  | { readonly op: 'not'; readonly of: Condition };

/** One clock of a paper. Several combine: the earliest end wins, each keeps its label. */
export type Clock = {
  readonly label: string;
  readonly when?: Condition | undefined;
} /** The last good day printed on it; with `fact`, the day in that fact (a certificate with one line per cover). */ & (
  | { readonly sort: 'stated'; readonly fact?: FactId | undefined }
  | { readonly sort: 'lasts'; readonly span: Span }
  | { readonly sort: 'start_by'; readonly span: Span; readonly unless: EventId }
  | { readonly sort: 'idle'; readonly span: Span; readonly since: 'inspection' | 'approved inspection' }
  | { readonly sort: 'finish_by'; readonly span: Span; readonly unless: EventId }
  | { readonly sort: 'while'; readonly kind: KindId }
  /** Ends the day before the event; with `plus`, so long after it ("60 days after moving in"). */
  | { readonly sort: 'until'; readonly event: EventId; readonly plus?: Span | undefined }
  | { readonly sort: 'for good' }
);

export interface Extension {
  /** The kind of paper that grants it. */
  readonly by: KindId;
  readonly adds: Span;
  readonly times: number;
  readonly askedBeforeLapse: boolean;
  /** Only after this event (building begun). */
  readonly after?: EventId | undefined;
}

/** A lapsed paper that an office may bring back within a window, for a fee. */
export interface Revival {
  readonly within: Span;
  readonly fee?: Cents | undefined;
}

export interface FactRule {
  readonly id: FactId;
  readonly sort: FactSort;
  readonly title: string;
}

export interface PaperKind {
  readonly id: KindId;
  readonly title: string;
  /** Who issues it; the owner for what the owner writes. */
  readonly from: OfficeId;
  readonly facts: Readonly<Record<FactId, FactRule>>;
  /** Words on the page that give the kind away. */
  readonly looksLike: readonly string[];
  readonly clocks: readonly Clock[];
  readonly extension?: Extension | undefined;
  readonly revival?: Revival | undefined;
  /** Kinds this one is drawn up from: it goes stale when theirs is replaced. */
  readonly madeFrom: readonly KindId[];
  /** One paper per engagement, area, draw ... */
  readonly each?: SubjectSort | undefined;
  /** Carries social security numbers, bank details and the like: only where a need asks for this very kind. */
  readonly private: boolean;
  readonly when?: Condition | undefined;
  readonly hint?: string | undefined;
  /** What the office ties it to ("silt fence before clearing"): told beside the paper. */
  readonly conditions?: readonly string[] | undefined;
  readonly basis: Basis;
}

export type SubjectSort = 'engagement' | 'area' | 'draw';

export type SealSort = 'wet' | 'digital';

/** What becomes of a needed paper at the visit. */
export const needUses = ['leave', 'show', 'bring home'] as const;
export type NeedUse = (typeof needUses)[number];

export interface Need {
  readonly id: string;
  /** Any one of these meets it, the first that is in hand and good. */
  readonly kinds: readonly KindId[];
  readonly when?: Condition | undefined;
  readonly each?: SubjectSort | undefined;
  readonly use: NeedUse;
  readonly copies: number;
  readonly form: 'paper' | 'electronic' | 'either';
  readonly sheets: readonly SheetName[];
  readonly seal: readonly SealSort[];
  readonly marks: readonly string[];
  readonly facts: readonly FactId[];
  /** This office must have approved the very edition. */
  readonly approvedBy?: OfficeId | undefined;
  /** This office's stamp must stand on it (a mark "stamped by ..." is asked for). */
  readonly stampedBy?: OfficeId | undefined;
  /** Still good this long after the visit day. */
  readonly goodFor?: Span | undefined;
  /** Issued no longer ago than this. */
  readonly fresh?: Span | undefined;
  /** "forms/application": the fillable form it is, by the id of its mapping. */
  readonly fill?: string | undefined;
  readonly optional: boolean;
  readonly why?: string | undefined;
  readonly basis: Basis;
}

/** Something that must have happened, or another errand that must be settled, before this one. */
export interface Before {
  readonly id: string;
  readonly after: { readonly event: EventId } | { readonly errand: ErrandId };
  readonly when?: Condition | undefined;
  readonly why?: string | undefined;
  readonly basis: Basis;
}

export type DeliveryWay = 'counter' | 'upload' | 'e-mail' | 'site binder' | 'lender';

export interface Delivery {
  readonly way: DeliveryWay;
  /** Collated sets to print (counter). */
  readonly sets: number;
  /** One file, or one per paper. */
  readonly files: 'one file' | 'separate files';
  /** Largest file the office takes, in bytes. */
  readonly fileLimit?: number | undefined;
  /** Pattern of a separate file's name: {n} {tab} {paper} {number} {day} {lot}. */
  readonly fileName?: string | undefined;
  readonly fileNameLimit?: number | undefined;
  /** Files go as they came, byte for byte. */
  readonly untouched: boolean;
  readonly cover: boolean;
  readonly index: boolean;
  readonly dividers: boolean;
  readonly bookmarks: boolean;
  readonly stamps: boolean;
  /** Put a marked reference copy of a digitally sealed paper inside. */
  readonly sealedCopy: boolean;
  readonly basis: Basis;
}

export interface Booking {
  readonly ahead: Span;
  /** "14:00" */
  readonly until?: string | undefined;
}

export const visitOutcomes = [
  'pass',
  'pass with corrections',
  'partial',
  'fail',
  'no access',
  'cancelled',
  'letter in lieu',
  // At the counter: they did not take it, so nothing lies with them.
  'turned away',
] as const;
export type VisitOutcome = (typeof visitOutcomes)[number];

export interface Errand {
  readonly id: ErrandId;
  readonly title: string;
  /** What the office reads on the packet's cover; the errand's title speaks to the owner. */
  readonly packetTitle?: string | undefined;
  readonly office: OfficeId;
  readonly stretch: string;
  readonly when?: Condition | undefined;
  readonly each?: SubjectSort | undefined;
  readonly inspection: boolean;
  /** Kinds whose idle clock a settled visit restarts. */
  readonly restarts: readonly KindId[];
  readonly fee?: Cents | undefined;
  readonly feeNote?: string | undefined;
  /** What coming a second time costs (re-inspection), where it was not passed or nobody was let in. */
  readonly againFee?: Cents | undefined;
  readonly takes?: Lead | undefined;
  readonly bring: readonly string[];
  /** What has to lie ready on the site when they come: stamped set, posted card, labels still on. */
  readonly onSite?: readonly string[] | undefined;
  /** The last moment to book it for a day: so long ahead, and until this time of day. */
  readonly book?: Booking | undefined;
  /** The words this office may settle or leave it with; empty or absent where it may be any. */
  readonly outcomes?: readonly VisitOutcome[] | undefined;
  readonly ask: readonly string[];
  readonly needs: readonly Need[];
  readonly before: readonly Before[];
  readonly yields: readonly KindId[];
  /** Events that a settled visit amounts to. */
  readonly causes: readonly EventId[];
  readonly deliver: Delivery;
  readonly caution?: string | undefined;
  /** Who must come in person for this errand, where it is more than the office's usual. */
  readonly appear?: string | undefined;
  readonly appointment?: string | undefined;
  /** It comes after what the lot's target day is about, so it has no days to spare against it. */
  readonly afterTarget?: boolean | undefined;
  readonly basis: Basis;
  /** Values that stand on another word than the errand itself, by the name they have in a practice file ("fee"). */
  readonly said?: Readonly<Record<string, Basis>> | undefined;
}

export type Term =
  | { readonly of: 'paper'; readonly kind: KindId; readonly fact: FactId }
  | { readonly of: 'lot'; readonly question: QuestionId }
  | { readonly of: 'figure'; readonly figure: string }
  | { readonly of: 'value'; readonly value: string | number };

export const verbs = ['same', 'at_most', 'at_least', 'not_before', 'covers_days', 'one_of'] as const;
export type Verb = (typeof verbs)[number];

/**
 * `same`: all terms equal (addresses, parcels and names through aliases). `at_most`: each term at most the next.
 * `at_least`: each at least the next. `not_before`: the first day not before the second.
 * `covers_days`: first and second day span third to fourth; with only two terms, of a kind kept per engagement,
 * they span that engagement's own days on site. `one_of`: the first term among the rest.
 */
export interface Agreement {
  readonly id: string;
  readonly say: string;
  readonly verb: Verb;
  readonly terms: readonly Term[];
  readonly when?: Condition | undefined;
  readonly basis: Basis;
}

export interface Question {
  readonly id: QuestionId;
  readonly ask: string;
  readonly sort: FactSort;
  readonly choices: readonly string[];
  readonly why: string;
  readonly where: string;
  /** One of the ten asked before the first result. */
  readonly first: boolean;
}

export interface EventKind {
  readonly id: EventId;
  readonly title: string;
}

/** A paper that must stay alive from one event to another. */
export interface Duty {
  readonly id: string;
  readonly kind: KindId;
  readonly from?: EventId | undefined;
  readonly to: EventId;
  readonly when?: Condition | undefined;
  readonly say: string;
  readonly basis: Basis;
}

/** Something that can't be undone, shut until its errands are settled. */
export interface Hold {
  readonly id: string;
  readonly title: string;
  readonly event: EventId;
  readonly until: readonly ErrandId[];
  readonly when?: Condition | undefined;
  readonly say: string;
  readonly basis: Basis;
}

/** The effective practice: common practice with the local amendments laid over it, checked. Key order is packet order. */
export interface Practice {
  readonly title: string;
  readonly layers: readonly string[];
  readonly offices: Readonly<Record<OfficeId, Office>>;
  readonly questions: Readonly<Record<QuestionId, Question>>;
  readonly events: Readonly<Record<EventId, EventKind>>;
  readonly papers: Readonly<Record<KindId, PaperKind>>;
  readonly errands: Readonly<Record<ErrandId, Errand>>;
  /** Errands written down and not wanted here (`exists: no`); an amendment that says `exists: yes` brings one in. */
  readonly offered?: Readonly<Record<ErrandId, Errand>> | undefined;
  readonly agreements: Readonly<Record<string, Agreement>>;
  readonly duties: Readonly<Record<string, Duty>>;
  readonly holds: Readonly<Record<string, Hold>>;
  /** Fillable forms by id; absent in practices kept before forms were mapped. */
  readonly forms?: Readonly<Record<string, FormRule>> | undefined;
  readonly holidays: readonly Day[];
}
