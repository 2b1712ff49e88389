import type { Day } from './days.ts';
import type { Answer, FactValue } from './facts.ts';
import type { FilledWith } from './forms.ts';
import type { ErrandId, EventId, FactId, KindId, OfficeId, QuestionId, SubjectSort, VisitOutcome } from './practice.ts';

/** Row ids are made by the store; no other room reads anything into them. */
export type PaperId = string;
export type EditionId = string;
export type SubjectId = string;
export type VisitId = string;
export type PacketId = string;

/** A name, address or parcel number exactly as printed, over time, with what else it is known as. */
export interface Identity {
  readonly sort: 'owner' | 'place' | 'parcel';
  readonly text: string;
  readonly from?: Day | undefined;
  readonly to?: Day | undefined;
}

/** Two spellings the owner confirmed to be the same place, person or parcel. */
export interface SameAs {
  readonly sort: Identity['sort'];
  readonly a: string;
  readonly b: string;
}

export interface Subject {
  readonly id: SubjectId;
  readonly sort: SubjectSort;
  readonly title: string;
  readonly firm?: string | undefined;
  readonly trade?: string | undefined;
  readonly from?: Day | undefined;
  readonly to?: Day | undefined;
}

export interface LotEvent {
  readonly event: EventId;
  readonly day: Day;
  readonly note?: string | undefined;
}

export const standingWords = ['received', 'approved', 'refused', 'revoked', 'closed'] as const;
export type StandingWord = (typeof standingWords)[number];

export interface Standing {
  readonly office: OfficeId;
  readonly word: StandingWord;
  readonly day: Day;
  readonly note?: string | undefined;
}

export const linkWords = ['replaces', 'amends', 'extends', 'continues', 'made from'] as const;
export type LinkWord = (typeof linkWords)[number];

export interface EditionLink {
  readonly word: LinkWord;
  readonly to: EditionId;
}

/** One received version of a paper, as readiness sees it. */
export interface Edition {
  readonly id: EditionId;
  readonly paper: PaperId;
  readonly received: Day;
  readonly issued?: Day | undefined;
  readonly effective?: Day | undefined;
  /** The last good day printed on it. */
  readonly goodThrough?: Day | undefined;
  readonly number?: string | undefined;
  readonly issuer?: string | undefined;
  readonly revision?: string | undefined;
  readonly facts: Readonly<Record<FactId, FactValue>>;
  readonly marks: readonly string[];
  readonly standings: readonly Standing[];
  readonly links: readonly EditionLink[];
  /** A paper that is held only in the hand: no pages in the lot. */
  readonly physicalOnly: boolean;
  /** It carries a digital signature field that is signed. */
  readonly sealed: boolean;
  readonly readable: boolean;
  readonly pages: number;
  /** Distinct sheet names of its pages; "other" where a size has no name. */
  readonly sheets: readonly string[];
  /** A form that was filled by its mapping: with what. */
  readonly filled?: FilledWith | undefined;
}

export interface Paper {
  readonly id: PaperId;
  readonly kind: KindId;
  readonly title: string;
  readonly subject?: SubjectId | undefined;
  /** The owner said this one doesn't apply, and why. */
  readonly notApplicable?: string | undefined;
  /** In the order they were kept. */
  readonly editions: readonly Edition[];
}

export const visitStates = ['planned', 'left with them', 'sent back', 'settled'] as const;
export type VisitState = (typeof visitStates)[number];

/** One numbered comment or correction an office left a visit with. */
export interface VisitSaid {
  readonly number: string;
  readonly text: string;
  /** Until when they want it answered. */
  readonly due?: Day | undefined;
  /** The day it was answered; undefined while it waits. */
  readonly answered?: Day | undefined;
}

export interface Visit {
  readonly id: VisitId;
  readonly errand: ErrandId;
  readonly subject?: SubjectId | undefined;
  readonly day: Day;
  readonly state: VisitState;
  readonly outcome?: VisitOutcome | undefined;
  readonly note?: string | undefined;
  readonly packet?: PacketId | undefined;
  /** In the order they were noted; left out where they said nothing. */
  readonly said?: readonly VisitSaid[] | undefined;
}

/** Everything readiness needs to know of a lot, read in one go. */
export interface LotView {
  readonly title: string;
  readonly target?: Day | undefined;
  readonly answers: Readonly<Record<QuestionId, Answer>>;
  readonly identities: readonly Identity[];
  readonly sameAs: readonly SameAs[];
  readonly subjects: readonly Subject[];
  readonly events: readonly LotEvent[];
  readonly papers: readonly Paper[];
  readonly visits: readonly Visit[];
}

/** A rectangle in the page as seen: points, origin at the lower left of the turned and cropped page. */
export interface SeenRect {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Page facts measured when a rendition was kept. */
export interface PageFacts {
  /** 0-based, within the rendition. */
  readonly page: number;
  /** Size as seen (turned, cropped, UserUnit applied), in points. */
  readonly width: number;
  readonly height: number;
  /** Where a margin line may stand without touching anything, best first. */
  readonly clearStrips: readonly SeenRect[];
  /** Unclosed `q` at the end of its content, and `Q` too many: what a stamp must wrap. */
  readonly openSaves: number;
  readonly extraRestores: number;
  readonly bytes: number;
  readonly text: string;
}

/** One page of an edition, in reading order. */
export interface EditionPage {
  readonly rendition: string;
  readonly facts: PageFacts;
  /** Extra turn chosen by the owner, clockwise. */
  readonly turn: 0 | 90 | 180 | 270;
}
