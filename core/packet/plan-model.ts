import type { Drawing } from '../typeset/drawing.ts';
import type { Day } from '../vocabulary/days.ts';
import type { ErrandReading, Finding } from '../vocabulary/finding.ts';
import type { EditionId, EditionPage, LotView, PaperId, SeenRect } from '../vocabulary/lot.ts';
import type { Cents } from '../vocabulary/money.ts';
import type { Delivery, ErrandId, KindId, OfficeId, Practice } from '../vocabulary/practice.ts';

/** A file kept in the lot, by hash, with the name it came under. */
export interface KeptFile {
  readonly sha256: string;
  readonly name: string;
  readonly bytes: number;
}

/** All pages of an edition in reading order, and its originals for deliveries that want them untouched. */
export interface EditionContent {
  readonly pages: readonly EditionPage[];
  readonly originals: readonly KeptFile[];
  /** What keeping dropped or noticed ("a script was dropped"), told again beside the packet. */
  readonly notes: readonly string[];
}

/** Where the rows of a packet come from: an errand's needs, or papers of the owner's own choosing. */
export type PacketPurpose =
  | { readonly of: 'errand'; readonly reading: ErrandReading; readonly trip?: Trip | undefined }
  | {
      readonly of: 'own choice';
      readonly title: string;
      readonly recipient: string;
      readonly editions: readonly EditionId[];
      readonly delivery: Delivery;
      /** What may be objected to in them; never refused, for no office's rule was read. */
      readonly findings?: readonly Finding[] | undefined;
    };

/** What the lot knows of the trip beside its papers: for the owner's own sheet. */
export interface Trip {
  /** Their own comments that wait for an answer, by their numbers. */
  readonly comments: readonly { readonly number: string; readonly text: string; readonly due?: Day | undefined }[];
  /** What it costs this time; cents. */
  readonly fee?: Cents | undefined;
  readonly feeNote?: string | undefined;
  /** The day agreed for their coming out, else the first on which they can. */
  readonly booked?: Day | undefined;
  readonly soonest?: Day | undefined;
}

/** The owner's decision to go although something would be refused; what can't be undone can't be overridden. */
export interface Override {
  readonly reason: string;
  readonly day: Day;
}

export interface PacketOrder {
  readonly lot: LotView;
  readonly practice: Practice;
  readonly day: Day;
  readonly purpose: PacketPurpose;
  readonly contents: Readonly<Record<EditionId, EditionContent>>;
  readonly override?: Override | undefined;
}

/** One tab of the packet: a paper, or the place of a missing one. */
export interface PlanTab {
  /** 1-based. */
  readonly tab: number;
  readonly need?: string | undefined;
  readonly kind: KindId;
  readonly paper?: PaperId | undefined;
  readonly edition?: EditionId | undefined;
  /** Editions that extend, amend or carry it on, whose pages follow its own under this tab. */
  readonly riders?: readonly EditionId[] | undefined;
  readonly title: string;
  readonly issuedBy: string;
  readonly number: string;
  readonly dated: string;
  readonly goodThrough: string;
  readonly pages: number;
  readonly copies: number;
  /** Where the paper is: in this file, beside it untouched, carried by hand, missing, or to follow. */
  readonly place: 'inside' | 'beside' | 'by hand' | 'missing' | 'to follow';
  /** The same edition already stands under this earlier tab: its pages go in once. */
  readonly seeTab?: number | undefined;
  readonly findings: readonly Finding[];
}

export type PlanSheet =
  | {
      readonly of: 'written';
      readonly sort: 'cover' | 'index' | 'divider' | 'out card' | 'errand sheet';
      readonly tab?: number | undefined;
      readonly title: string;
      readonly drawing: Drawing;
    }
  | {
      readonly of: 'paper';
      readonly tab: number;
      readonly title: string;
      readonly edition: EditionId;
      readonly page: EditionPage;
      /** Stamp in this strip, or why there is none. */
      readonly stamp: PlanStamp | { readonly none: string };
    };

export interface PlanStamp {
  readonly strip: SeenRect;
  /** "PERMIT-APPLY · tab 3 · 14 of 92" */
  readonly text: string;
  readonly tabs: number;
  readonly tab: number;
  readonly draft: boolean;
}

/** A node of the finished file's outline; `sheet` is 0-based in the file. */
export interface PlanBookmark {
  readonly title: string;
  readonly sheet: number;
  readonly children: readonly PlanBookmark[];
}

/** From this sheet on, pages are labelled prefix + number in the style (ISO 32000 12.4.2). */
export interface PlanLabel {
  readonly sheet: number;
  readonly style: 'decimal' | 'roman' | 'none';
  readonly prefix: string;
  readonly start: number;
}

/** One file of the packet. */
export type PlanFile =
  | {
      readonly of: 'assembled';
      readonly sort: 'packet' | 'paper' | 'print shop' | 'errand sheet';
      readonly name: string;
      readonly title: string;
      readonly sheets: readonly PlanSheet[];
      readonly bookmarks: readonly PlanBookmark[];
      readonly labels: readonly PlanLabel[];
      /** An estimate for volumes; the true size is known after linking. */
      readonly estimatedBytes: number;
    }
  | {
      readonly of: 'untouched';
      readonly sort: 'sealed' | 'upload';
      readonly name: string;
      readonly title: string;
      readonly tab?: number | undefined;
      readonly file: KeptFile;
    };

/** The whole packet as data: the preview and the tests read this, nothing is assembled to look. */
export interface PacketPlan {
  /** Short and plain: "PERMIT-APPLY"; stands in every stamp and file name. */
  readonly code: string;
  readonly title: string;
  readonly errand?: ErrandId | undefined;
  readonly office?: OfficeId | undefined;
  readonly recipient: string;
  readonly day: Day;
  readonly delivery: Delivery;
  readonly draft: boolean;
  readonly override?: Override | undefined;
  readonly tabs: readonly PlanTab[];
  readonly files: readonly PlanFile[];
  readonly findings: readonly Finding[];
  /** Things to tell beside the packet: unstamped pages, dropped scripts, sealed files that travel apart ... */
  readonly notes: readonly string[];
}
