import type { KeptFile, Override, PacketPlan } from '../packet/plan-model.ts';
import type { Day } from '../vocabulary/days.ts';
import type { FactValue } from '../vocabulary/facts.ts';
import type {
  EditionId,
  EditionLink,
  PacketId,
  PageFacts,
  PaperId,
  SeenRect,
  SubjectId,
  VisitId,
  VisitState,
} from '../vocabulary/lot.ts';
import type { ErrandId, FactId, KindId, OfficeId, SubjectSort, VisitOutcome } from '../vocabulary/practice.ts';
import type { SealReading } from '../vocabulary/seals.ts';

export type ActId = number;
export type HandoverId = string;
export type RecordId = string;
export type CommentId = number;

/** The program that works on a lot, as others are told: "the desktop window on bench-laptop". */
export interface Holder {
  readonly program: string;
  readonly host: string;
  readonly pid: number;
}

/** One text a practice was made from, under the name the person knows it by. */
export interface PracticeLayer {
  readonly name: string;
  readonly text: string;
}

/** The layer of an office's word and, kept beside it since they are told, the rule as it stood before and after. */
export interface WordLayer extends PracticeLayer {
  readonly change?: { readonly rule: string; readonly was: string; readonly now: string } | undefined;
  readonly remark?: string | undefined;
}

/** "The clerk said otherwise": who at which office said what, when, and the amendment it amounts to. */
export interface OfficeWord {
  readonly office: OfficeId;
  readonly who: string;
  readonly day: Day;
  readonly said: string;
  readonly layer: WordLayer;
}

/** The same as it is kept. */
export interface KeptOfficeWord extends OfficeWord {
  readonly id: number;
  /** The act that brought it; undefined where a purge of the history took it. */
  readonly act?: ActId | undefined;
}

/** One thing done, newest first in the history. */
export interface ActShown {
  readonly id: ActId;
  readonly title: string;
  /** Instant, ISO 8601 with zone Z. */
  readonly at: string;
  /** The act this one took back. */
  readonly undoes?: ActId | undefined;
  readonly undone: boolean;
  /** Why it can't be undone; undefined where it can. */
  readonly lasting?: string | undefined;
}

export interface NewSubject {
  readonly sort: SubjectSort;
  readonly title: string;
  readonly firm?: string | undefined;
  readonly trade?: string | undefined;
  readonly from?: Day | undefined;
  readonly to?: Day | undefined;
}

/** What became of a file that was taken in. */
export interface TakenIn {
  readonly sha256: string;
  readonly bytes: number;
  /** The very bytes were in the lot before. */
  readonly already: boolean;
  /** Editions that rest on this file; empty where it was taken in but never kept as a paper. */
  readonly editions: readonly EditionId[];
}

/** Pages of a file that stand in an edition. */
export interface FileUse {
  readonly edition: EditionId;
  readonly title: string;
  /** 0-based, in the edition's order. */
  readonly pages: readonly number[];
  /** How many the file has. */
  readonly count: number;
}

/** A file that came in and is not kept yet. */
export interface TableFile {
  /** No other file on the table bears it. */
  readonly name: string;
  readonly path: string;
  readonly bytes: number;
  /** Instant, ISO 8601 with zone Z. */
  readonly since: string;
  /** When it was last written to or renamed, ms since 1970: other bytes of the same length give themselves away. */
  readonly changed: number;
  /** Somebody may still be writing to it. */
  readonly arriving: boolean;
  /** The title of the paper that holds these very bytes; told by `listTable` only. */
  readonly already?: string | undefined;
}

/** A file laid on the table by us. */
export interface LaidFile {
  readonly name: string;
  readonly bytes: number;
  readonly sha256: string;
  readonly already?: string | undefined;
}

/** Sound pages and what was measured on them: the shape intake yields (`Rendition` there). */
export interface NewRendition {
  readonly source: string;
  readonly recipe: string;
  readonly tool: string;
  readonly rung: string;
  readonly pages: readonly PageFacts[];
  readonly sealed: boolean;
  /** What each digital signature of the original says; left out where there is none. */
  readonly seals?: readonly SealReading[] | undefined;
  /** What was asked for beyond sound pages, as JSON; left out for the file's own pages. */
  readonly asked?: string | undefined;
  readonly notes: readonly string[];
}

export interface KeptRendition extends NewRendition {
  readonly sha256: string;
  readonly bytes: number;
  readonly seals: readonly SealReading[];
  /** Empty for the file's own pages. */
  readonly asked: string;
}

/** A fact read off a paper, and where it stands on it (page 0-based in the edition). */
export interface KeptFact {
  readonly fact: FactId;
  readonly value: FactValue;
  readonly page?: number | undefined;
  readonly place?: SeenRect | undefined;
}

/** Pages of a rendition that stand in an edition; all of them, in order, where `pages` is left out. */
export interface EditionPart {
  readonly rendition: string;
  readonly pages?: readonly number[] | undefined;
  readonly turn?: 0 | 90 | 180 | 270 | undefined;
}

/** Where the sheets themselves are: "blue binder", "roll in the truck". */
export interface OriginalCopy {
  readonly place: string;
  readonly count: number;
  readonly note?: string | undefined;
}

/**
 * A received version of a paper. The paper of (kind, subject) is found or made; kind `other` has a paper per title.
 * An edition with neither parts nor originals must be `physicalOnly`.
 */
export interface NewEdition {
  readonly kind: KindId;
  /** The paper's title where it is made; a paper found keeps its own. */
  readonly title: string;
  readonly subject?: SubjectId | undefined;
  /** Add to this very paper. */
  readonly paper?: PaperId | undefined;
  readonly parts: readonly EditionPart[];
  /** SHA-256 of originals, in order. */
  readonly originals: readonly string[];
  readonly received: Day;
  readonly issued?: Day | undefined;
  readonly effective?: Day | undefined;
  readonly goodThrough?: Day | undefined;
  readonly number?: string | undefined;
  readonly issuer?: string | undefined;
  readonly revision?: string | undefined;
  readonly facts?: readonly KeptFact[] | undefined;
  readonly marks?: readonly string[] | undefined;
  readonly links?: readonly EditionLink[] | undefined;
  readonly physicalOnly?: boolean | undefined;
  /** Left out: sealed where a rendition it is made of is. */
  readonly sealed?: boolean | undefined;
  /** Left out: readable. */
  readonly readable?: boolean | undefined;
  readonly copies?: readonly OriginalCopy[] | undefined;
}

/** The dates and words on an edition that the person may correct; only what is named changes, null clears. */
export interface EditionCorrection {
  readonly received?: Day;
  readonly issued?: Day | null;
  readonly effective?: Day | null;
  readonly goodThrough?: Day | null;
  readonly number?: string | null;
  readonly issuer?: string | null;
  readonly revision?: string | null;
  readonly physicalOnly?: boolean;
  readonly readable?: boolean;
}

export interface NewVisit {
  /** Given: that visit is changed; left out: a new one is recorded. */
  readonly id?: VisitId | undefined;
  readonly errand: ErrandId;
  readonly subject?: SubjectId | undefined;
  readonly day: Day;
  readonly state: VisitState;
  readonly outcome?: VisitOutcome | undefined;
  readonly note?: string | undefined;
  readonly packet?: PacketId | undefined;
}

/** One numbered comment an office sent back. */
export interface VisitComment {
  readonly id: CommentId;
  readonly visit: VisitId;
  readonly number: string;
  readonly text: string;
  readonly answer?: string | undefined;
  readonly answered?: Day | undefined;
  /** The day by which they want it answered. */
  readonly due?: Day | undefined;
  /** The paper that shows it is put right. */
  readonly evidence?: EditionId | undefined;
}

/** What was done about a comment; the evidence stays where none is named. */
export interface CommentAnswer {
  readonly text: string;
  readonly day: Day;
  readonly evidence?: EditionId | undefined;
}

/** Only what is named changes; null clears. */
export interface CommentChange {
  readonly number?: string | undefined;
  readonly text?: string | undefined;
  readonly due?: Day | null | undefined;
  readonly evidence?: EditionId | null | undefined;
}

/** A finished file waiting in the working folder, to be moved into the lot. */
export interface FinishedFile {
  readonly name: string;
  readonly sha256: string;
  readonly bytes: number;
  readonly path: string;
}

export interface NewPacket {
  readonly plan: PacketPlan;
  readonly practiceSha: string;
  readonly override?: Override | undefined;
  readonly files: readonly FinishedFile[];
}

export interface KeptPacket {
  readonly id: PacketId;
  readonly code: string;
  readonly title: string;
  readonly errand?: ErrandId | undefined;
  readonly recipient: string;
  readonly day: Day;
  readonly practiceSha: string;
  readonly override?: Override | undefined;
  /** Absolute path of the packet's folder. */
  readonly folder: string;
  readonly files: readonly KeptFile[];
  readonly editions: readonly EditionId[];
}

export interface HandedEdition {
  readonly edition: EditionId;
  readonly copies: number;
  /** The original sheets stayed with them. */
  readonly surrendered: boolean;
}

/** What was given to whom. With a packet, its files and editions are taken from it where none are named. */
export interface NewHandover {
  readonly packet?: PacketId | undefined;
  readonly visit?: VisitId | undefined;
  readonly office?: OfficeId | undefined;
  readonly recipient: string;
  /** "at the counter", "upload", "e-mail", "posted" ... */
  readonly how: string;
  readonly day: Day;
  readonly receipt?: string | undefined;
  readonly note?: string | undefined;
  readonly files?: readonly KeptFile[] | undefined;
  readonly editions?: readonly HandedEdition[] | undefined;
}

export interface Handover extends NewHandover {
  readonly id: HandoverId;
  readonly files: readonly KeptFile[];
  readonly editions: readonly HandedEdition[];
  readonly withdrawn?: { readonly day: Day; readonly reason: string } | undefined;
}

export const recordSorts = ['photo', 'receipt', 'serial number', 'note'] as const;
export type RecordSort = (typeof recordSorts)[number];

/** A light thing: dated photo (place, wall, trade), receipt, serial number, note. */
export interface NewRecord {
  readonly sort: RecordSort;
  readonly day: Day;
  readonly title: string;
  readonly place?: string | undefined;
  /** "north", "behind the tub": which side of the place. */
  readonly wall?: string | undefined;
  readonly trade?: string | undefined;
  /** Cents. */
  readonly amount?: number | undefined;
  readonly text?: string | undefined;
  /** SHA-256 of an original taken in. */
  readonly file?: string | undefined;
}

/** What of a record may be corrected; only what is named changes, null clears. */
export interface RecordCorrection {
  readonly title?: string;
  readonly day?: Day;
  readonly place?: string | null;
  readonly wall?: string | null;
  readonly trade?: string | null;
  /** Cents. */
  readonly amount?: number | null;
  readonly text?: string | null;
}

export interface LotRecord extends NewRecord {
  readonly id: RecordId;
  /** The name its file came under; undefined where it has none, or it was removed for good. */
  readonly fileName?: string | undefined;
  /** Where it lies in the lot. */
  readonly filePath?: string | undefined;
}

/** Tables of the money of the house whose rows a person adds, changes and takes away. */
export const costTables = [
  'cost_line',
  'change_order',
  'invoice',
  'payment',
  'supplier_notice',
  'waiver',
  'draw',
] as const;
export type CostTable = (typeof costTables)[number];

/** A row to keep: with an id the one there is changed, without a new one is made. */
export type Kept<Row extends { readonly id: string }> = Omit<Row, 'id'> & { readonly id?: string | undefined };

/** Whether the words of pages are read too: those of a thousand pages are megabytes that laying out has no use for. */
export type PageWords = 'with words' | 'without words';
