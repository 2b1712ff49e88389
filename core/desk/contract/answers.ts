import type { PacketPlan } from '../../packet/plan-model.ts';
import type { Day } from '../../vocabulary/days.ts';
import type { ErrorShape } from '../../vocabulary/errors.ts';
import type { Answer, FactSort } from '../../vocabulary/facts.ts';
import type { ErrandReading, Finding, NeedReading, PaperState, Way, WayStop } from '../../vocabulary/finding.ts';
import type { Identity, LotEvent, Subject } from '../../vocabulary/lot.ts';
import type { FeeDue } from '../../vocabulary/money.ts';
import type { Basis, Errand, Office, OfficeSort, Practice, VisitOutcome } from '../../vocabulary/practice.ts';
import type { FigureRow } from './figure-answers.ts';
import type { BookedRow, BookingRow, HoldOnRow } from './inspection-answers.ts';
import type { HoldRow, NeedForRow, PacketFileRow } from './screen-answers.ts';
import type { ClockRow, CommentRow, PastVisitRow, ToldRow } from './shown-rows.ts';
import type { ShownPlace } from './table-answers.ts';

/** What the requests answer: plain data, fit for any host. */
export interface LotOpened {
  readonly lot: string;
  readonly title: string;
  /** Half-done work of an interrupted run that was cleared away. */
  readonly swept: number;
  /** What kept the day's safety copy from being made, in sentences. */
  readonly notes: readonly string[];
}

/** What papers in hand say to a question of the record card. */
export interface ToldAnswer {
  /** As `answer` takes it. */
  readonly answer: string;
  readonly say: string;
  /** Titles of the papers that say so. */
  readonly papers: readonly string[];
}

export interface AskedQuestion {
  readonly id: string;
  readonly ask: string;
  readonly why: string;
  readonly where: string;
  readonly choices: readonly string[];
  readonly first: boolean;
  /** How an answer is written: a choice, a count, an amount ... */
  readonly sort: FactSort;
  readonly answer?: Answer | undefined;
  /** What papers in hand say to it, where that was not answered. */
  readonly told: readonly ToldAnswer[];
}

/** The last bundle that was saved somewhere. */
export interface LastBackup {
  readonly day: Day;
  readonly name: string;
  readonly bytes: number;
  /** Nothing was left out or found changed. */
  readonly whole: boolean;
}

export interface LotCard {
  readonly title: string;
  readonly target?: Day | undefined;
  readonly practice: string;
  /** Undefined where no bundle was saved from this computer yet. */
  readonly backup?: LastBackup | undefined;
  readonly questions: readonly AskedQuestion[];
  readonly identities: readonly Identity[];
  readonly subjects: readonly Subject[];
  readonly events: readonly (LotEvent & { readonly title: string })[];
}

export interface KeptPaper {
  readonly paper: string;
  readonly edition: string;
  readonly title: string;
  readonly pages: number;
  readonly sealed: boolean;
  readonly notes: readonly string[];
  /** These very bytes were in the lot before. */
  readonly already: boolean;
  /** A date that is asked of it is missing: which ("the day it was issued is not known"). */
  readonly undated?: string | undefined;
  /** Kept without a number, and what that will be missed for: forms, errands, what has to agree; else empty. */
  readonly unnumbered: readonly string[];
  /** Its last good day is written on papers of its kind: noting that one helps as well. */
  readonly endStated?: boolean | undefined;
}

export interface KeepAnswer {
  /** The last act of it; undefined where nothing was kept. */
  readonly act?: string | undefined;
  readonly kept: readonly KeptPaper[];
  readonly refused: readonly { readonly file: string; readonly error: ErrorShape }[];
  /** About what was kept as a whole: a file that could not be taken off the table. */
  readonly notes: readonly string[];
}

export interface EditionRow {
  readonly edition: string;
  readonly number: string;
  /** "C", where it is one of several revisions. */
  readonly revision?: string | undefined;
  readonly issued: string;
  readonly goodThrough: string;
  /** The same two as dates, for sorting. */
  readonly issuedDay?: Day | undefined;
  readonly goodThroughDay?: Day | undefined;
  /** The day it is in force from, where that is noted: what a binder often bears instead of a day of issue. */
  readonly inForceDay?: Day | undefined;
  readonly pages: number;
  readonly marks: readonly string[];
  readonly current: boolean;
}

export interface PaperRow {
  /** Names the row, kept paper or not. */
  readonly row: string;
  /** Undefined where the way needs it and nothing of it was kept yet. */
  readonly paper?: string | undefined;
  readonly kind: string;
  readonly title: string;
  readonly office: string;
  /** The office that issues it: its id, and the sort that decides where its tab sits. */
  readonly from: string;
  readonly sort: OfficeSort;
  readonly subject?: string | undefined;
  readonly state: PaperState;
  /** It has lapsed or will, and nothing still to come asks for it: nobody need mind. */
  readonly spent: boolean;
  /** Of the edition that counts, else of the newest. */
  readonly issuedDay?: Day | undefined;
  readonly inForceDay?: Day | undefined;
  readonly goodThroughDay?: Day | undefined;
  /** Nobody can say how long it is good: what is not known of the edition that counts. */
  readonly undated?: string | undefined;
  /** Errands that ask for it and apply here. */
  readonly needFor: readonly NeedForRow[];
  /** What brings it, where it is missing and an errand does. */
  readonly broughtBy?: RemedyRow | undefined;
  readonly editions: readonly EditionRow[];
}

/** The errand that puts something right, and where it is gone on. */
export interface RemedyRow {
  readonly errand: string;
  readonly title: string;
  readonly office: string;
  readonly earliest?: Day | undefined;
}

export interface WayAnswer extends Omit<Way, 'stops'> {
  readonly stops: readonly (WayStop & {
    readonly title: string;
    readonly office: string;
    readonly fee?: number | undefined;
    /** The stretch of the way it belongs to, as the practice names it. */
    readonly stretch?: string | undefined;
    /** The day of the visit that settled it, where one was recorded. */
    readonly settled?: Day | undefined;
  })[];
  readonly duties: readonly Finding[];
  /** Papers no errand brings that errands with nothing else before them wait for: where to begin. */
  readonly beginWith: readonly string[];
  /** What may not be done yet. */
  readonly holds: readonly HoldRow[];
}

export interface ErrandAnswer {
  readonly errand: Errand;
  readonly office: Office;
  readonly reading: ErrandReading;
  readonly needs: readonly (NeedReading & {
    readonly title: string;
    readonly use: string;
    readonly copies: number;
    readonly basis: Basis;
    /** Of the edition that meets it, in words; empty where there is none or it says nothing. */
    readonly number: string;
    readonly revision: string;
    readonly issued: string;
    readonly goodThrough: string;
    readonly clocks: readonly ClockRow[];
    readonly pages: number;
    readonly sheets: readonly string[];
    /** The errand that would meet it, where it is not met and one does. */
    readonly remedy?: RemedyRow | undefined;
  })[];
  /** What they sent it back with and nobody has answered yet, newest visit first. */
  readonly comments: readonly CommentRow[];
  /** Every going that was made, newest first, with all that was said and answered. */
  readonly past: readonly PastVisitRow[];
  /** What its office said otherwise than the rules on file, newest first. */
  readonly told: readonly ToldRow[];
  /** What the next going costs, coming again included. */
  readonly due: FeeDue;
  /** Sums done again with the numbers on the papers it takes along. */
  readonly figures: readonly FigureRow[];
  /** Until when somebody has to be booked to come, and a day that is agreed already. */
  readonly booking?: BookingRow | undefined;
  readonly booked?: BookedRow | undefined;
  /** The words they may leave it with. */
  readonly outcomes: readonly VisitOutcome[];
  /** What may not be done before it is settled. */
  readonly holds: readonly HoldOnRow[];
  readonly wouldBeRefused: boolean;
}

/**
 * A plan as it crosses to a window: the pages' text and clear strips stay behind, and each rendition it draws on
 * has a ticket.
 */
export interface PlanAnswer extends PacketPlan {
  readonly tickets: Readonly<Record<string, string>>;
}

/** A packet that was assembled, newest first. */
export interface PacketRow {
  readonly packet: string;
  /** The errand it was assembled for; none for papers of one's own choosing. */
  readonly errand?: string | undefined;
  readonly title: string;
  readonly recipient: string;
  readonly day: Day;
  readonly draft: boolean;
  readonly files: readonly string[];
}

export interface AssembleAnswer {
  readonly act: string;
  readonly packet: string;
  readonly title: string;
  readonly draft: boolean;
  readonly files: readonly PacketFileRow[];
  /** The folder they lie in. */
  readonly place: ShownPlace;
  readonly findings: readonly Finding[];
  readonly notes: readonly string[];
  readonly tabs: PacketPlan['tabs'];
  readonly wouldBeRefused: boolean;
}

export interface HandoverRow {
  readonly handover: string;
  readonly packet: string;
  readonly packetTitle: string;
  readonly to: string;
  readonly how: string;
  readonly day: Day;
  readonly receipt: string;
  readonly sha256: readonly string[];
  readonly note: string;
  readonly withdrawn?: string | undefined;
}

/** A paper, an errand or an office; the id of what it is stands in the field of that name. */
export interface FoundRow {
  readonly sort: 'paper' | 'errand' | 'office';
  readonly paper?: string | undefined;
  readonly edition?: string | undefined;
  readonly errand?: string | undefined;
  /** Of an errand that is run for several: whose. */
  readonly subject?: string | undefined;
  readonly office?: string | undefined;
  /** Of a paper. */
  readonly kind?: string | undefined;
  readonly title: string;
  /** 1-based page in the edition, where the words stand on one. */
  readonly page?: number | undefined;
  /** Where the words were found. */
  readonly why: 'title' | 'number' | 'office' | 'facts' | 'page' | 'visit' | 'word';
  /** Of what came of a visit or what an office said: how and when ("sent back on 30 Nov 2026"). */
  readonly when?: string | undefined;
  readonly snippet: string;
  /** [start, end) of the found words in `snippet`. */
  readonly marks: readonly (readonly [number, number])[];
}

export interface ActRow {
  readonly act: string;
  readonly title: string;
  readonly at: string;
  readonly undone: boolean;
  /** Why it can't be undone, where it can't. */
  readonly lasting?: string | undefined;
  /** The act this one took back. */
  readonly undoes?: string | undefined;
}

export interface VerifyProblem {
  readonly sort: string;
  readonly say: string;
  readonly next: string;
  readonly papers: readonly string[];
}

export interface VerifyAnswer {
  readonly files: number;
  readonly problems: readonly VerifyProblem[];
}

/** A noted event, and the holds it broke: things that may not be done before an errand is settled. */
export interface EventAnswer {
  readonly act: string;
  readonly findings: readonly Finding[];
  readonly wouldBeRefused: boolean;
}

export interface PurgeAnswer {
  /** Undefined where only bytes were left to remove. */
  readonly act: string | undefined;
  readonly papers: readonly string[];
  readonly packets: readonly string[];
  /** What could not be removed from the disk, in sentences. */
  readonly notes: readonly string[];
}

export interface UndoAnswer {
  readonly act: string;
  readonly undone: string;
  /** Names of files that lie on the table again, for nothing rests on them any more. */
  readonly onTable: readonly string[];
  readonly notes: readonly string[];
}

export interface PracticeAnswer {
  readonly practice: Practice;
  readonly layers: readonly string[];
}

export interface RecordRow {
  readonly record: string;
  readonly sort: string;
  readonly title: string;
  readonly day: Day;
  readonly place: string;
  readonly trade: string;
  readonly amount?: number | undefined;
  readonly wall: string;
  /** What was written beside it; of an e-mail, its text. */
  readonly text: string;
  /** The name of the file kept with it, and its bytes. */
  readonly file: string;
  readonly ticket?: string | undefined;
  /** A small picture of it, where one was made. */
  readonly small?: string | undefined;
}
