import type { Day } from '../../vocabulary/days.ts';
import type { ErrorShape } from '../../vocabulary/errors.ts';
import type { CameBack, ErrandState, Finding, PaperState, Validity, Weight } from '../../vocabulary/finding.ts';
import type { LinkWord, SeenRect, StandingWord } from '../../vocabulary/lot.ts';
import type { FigureRow } from './figure-answers.ts';
import type { BookedRow, BookingRow, CorrectionsRow } from './inspection-answers.ts';
import type { ChangedRow, UnseenRow } from './lapse-answers.ts';
import type { CarryRow, ClockRow, CommentRow, OfficeCard } from './shown-rows.ts';
import type { FileLook } from './table-answers.ts';

export type * from './figure-answers.ts';
export type * from './inspection-answers.ts';
export type * from './practice-answers.ts';
export type * from './table-answers.ts';

export type FindingCounts = Readonly<Record<Weight, number>>;

/** One errand that can be done today. */
export interface TodayErrand {
  readonly errand: string;
  readonly subject?: string | undefined;
  readonly subjectTitle?: string | undefined;
  readonly title: string;
  readonly office: OfficeCard;
  /** What it opens up, a whole sentence. */
  readonly why: string;
  readonly spare?: number | undefined;
  /** Cents. */
  readonly fee?: number | undefined;
  readonly feeNote?: string | undefined;
  readonly state: ErrandState;
  readonly heaviest?: Weight | undefined;
  readonly carry: readonly CarryRow[];
  readonly bring: readonly string[];
  /** What lies ready on the site when they come. */
  readonly onSite: readonly string[];
  readonly booking?: BookingRow | undefined;
  readonly booked?: BookedRow | undefined;
  readonly ask: readonly string[];
  readonly findings: FindingCounts;
  readonly caution?: string | undefined;
  /** What papers it takes along say against others: settled first, or what it brings home may be for nothing. */
  readonly settleFirst: readonly string[];
}

export interface WaitingRow {
  readonly errand: string;
  readonly subject?: string | undefined;
  readonly subjectTitle?: string | undefined;
  readonly title: string;
  readonly office: { readonly id: string; readonly title: string; readonly phone?: string | undefined };
  readonly since: Day;
  /** Calendar days since then. */
  readonly days: number;
  /** When it should be back, at the office's slow end. */
  readonly expected?: Day | undefined;
}

export interface BackRow extends WaitingRow {
  /** Whether they had it, never took it, or came out and did not pass it. */
  readonly cameBack: CameBack;
  /** Those nobody answered yet. */
  readonly comments: readonly CommentRow[];
}

export interface SoonRow extends Finding {
  /** The paper it is about. */
  readonly title: string;
  /** The day by which something has to be done, where one is known. */
  readonly by?: Day | undefined;
  /** More time can be asked for: the edition it is asked for. */
  readonly extend?: string | undefined;
}

export interface TodayAnswer {
  readonly day: Day;
  /** What keeps the lot itself from being looked after: the day's copy of its database that could not be made. */
  readonly troubles: readonly ErrorShape[];
  /** In order of doing; errands sent back first. */
  readonly can: readonly TodayErrand[];
  readonly waiting: readonly WaitingRow[];
  readonly back: readonly BackRow[];
  /** Open corrections of inspections that were not sent back: passed with corrections, or in part. */
  readonly corrections: readonly CorrectionsRow[];
  /** What is wrong with papers in the lot, or ends before it is needed: to be put right before anybody is shown them. */
  readonly amiss: readonly SoonRow[];
  /** What has to be done about papers within 30 days, heaviest first. */
  readonly soon: readonly SoonRow[];
  readonly holds: readonly HoldRow[];
  /** Events not noted yet that no errand brings about; `shut` where a hold says not yet. */
  readonly events: readonly { readonly event: string; readonly title: string; readonly shut: boolean }[];
  readonly target?: Day | undefined;
  readonly finish?: Day | undefined;
  readonly beginWith: readonly string[];
}

export interface PageRow {
  /** Of the rendition's bytes; the same for every page of one rendition, and at every asking. */
  readonly ticket: string;
  /** 0-based, within the rendition. */
  readonly page: number;
  /** Points, as seen before `turn`. */
  readonly width: number;
  readonly height: number;
  /** Further clockwise turn chosen by the owner. */
  readonly turn: 0 | 90 | 180 | 270;
}

export interface FactRow {
  readonly fact: string;
  readonly title: string;
  /** As the program prints it; empty where the kind has this fact and nobody noted it. */
  readonly words: string;
  readonly sort: string;
  /** 0-based page in the edition, and where it stands there as seen. */
  readonly page?: number | undefined;
  readonly place?: SeenRect | undefined;
}

export interface LinkRow {
  /** `from`: the other edition says it of this one. */
  readonly direction: 'to' | 'from';
  readonly word: LinkWord;
  readonly edition: string;
  readonly title: string;
  readonly number: string;
  readonly issued: string;
}

export interface HolderRow {
  readonly handover: string;
  readonly to: string;
  readonly how: string;
  readonly day: Day;
  readonly copies: number;
  readonly surrendered: boolean;
}

/** All that a paper's own screen shows of one edition. */
export interface PagesAnswer {
  readonly edition: string;
  readonly paper: string;
  readonly kind: string;
  readonly kindTitle: string;
  readonly title: string;
  readonly subject?: string | undefined;
  readonly subjectTitle?: string | undefined;
  readonly office: { readonly id: string; readonly title: string };
  readonly hint?: string | undefined;
  readonly state: PaperState;
  /** It is the edition that counts today. */
  readonly current: boolean;
  /** Newer than the one that counts, and waits for this office's approval, which that one has. */
  readonly awaitsApprovalOf?: string | undefined;
  readonly number: string;
  readonly issuer: string;
  readonly revision: string;
  readonly received: Day;
  readonly issued?: Day | undefined;
  readonly effective?: Day | undefined;
  /** The last good day printed on it. */
  readonly goodThrough?: Day | undefined;
  readonly sealed: boolean;
  readonly readable: boolean;
  readonly physicalOnly: boolean;
  readonly notApplicable?: string | undefined;
  readonly originals: readonly {
    readonly name: string;
    readonly ticket: string;
    readonly bytes: number;
    readonly sort: FileLook;
  }[];
  readonly pages: readonly PageRow[];
  readonly notes: readonly string[];
  /** The practice knows that more time can be asked for. */
  readonly extendable: boolean;
  /** Sums done again with the numbers on it. */
  readonly figures: readonly FigureRow[];
  /** Facts of the kind in the order of the practice, noted or not. */
  readonly facts: readonly FactRow[];
  readonly marks: readonly string[];
  /** Marks some errand asks for on this kind. */
  readonly marksAsked: readonly string[];
  readonly standings: readonly {
    readonly office: string;
    readonly officeTitle: string;
    readonly word: StandingWord;
    readonly day: Day;
    readonly note?: string | undefined;
  }[];
  readonly links: readonly LinkRow[];
  readonly validity: Validity;
  /** All clocks together: "good through 14 Mar 2026", "lapsed 2 Feb 2026", "good, with no end". */
  readonly validityWords: string;
  readonly clocks: readonly ClockRow[];
  readonly holders: readonly HolderRow[];
  readonly copies: readonly { readonly place: string; readonly count: number; readonly note?: string | undefined }[];
  /** The other editions of the paper, in the order they were kept. */
  readonly editions: readonly {
    readonly edition: string;
    readonly number: string;
    readonly revision?: string | undefined;
    readonly issued: string;
    readonly current: boolean;
  }[];
  readonly needFor: readonly NeedForRow[];
}

/** An errand that asks for a paper. */
export interface NeedForRow {
  readonly errand: string;
  readonly title: string;
  /** It isn't settled yet. */
  readonly open: boolean;
}

export interface HandedRow {
  readonly handover: string;
  readonly packet?: string | undefined;
  readonly title: string;
  readonly to: string;
  readonly day: Day;
  readonly how: string;
  readonly receipt: string;
  /** What else was noted of it: originals left with them that the lot has no record of, say. */
  readonly note: string;
  readonly files: readonly { readonly name: string; readonly bytes: number; readonly sha256: string }[];
  readonly editions: readonly {
    readonly edition: string;
    readonly paper: string;
    readonly title: string;
    readonly number: string;
    readonly copies: number;
    readonly surrendered: boolean;
    /** Another edition counts now: they hold an old copy. */
    readonly old: boolean;
  }[];
}

export interface AwaitedRow {
  readonly kind: string;
  readonly title: string;
  readonly errand: string;
  readonly errandTitle: string;
  readonly since: Day;
  readonly expected?: Day | undefined;
}

/** A clock of the office's own: comments unanswered for 180 days, mostly. */
export interface RunningClock {
  readonly say: string;
  readonly through: Day;
  readonly days: number;
}

export interface OfficeRow {
  readonly office: OfficeCard;
  readonly waiting: readonly WaitingRow[];
  /** Sent back, with all comments, answered ones too. */
  readonly back: readonly BackRow[];
  readonly handed: readonly HandedRow[];
  readonly awaited: readonly AwaitedRow[];
  readonly clocks: readonly RunningClock[];
  /** In hand, asked for by this office, and never given to it in this edition. */
  readonly unseen: readonly UnseenRow[];
}

/** Offices with something; handovers to somebody who is no office of the practice stand under `others`. */
export interface OfficesAnswer {
  /** Papers that changed while others hold the old ones, or made something from them. */
  readonly changed: readonly ChangedRow[];
  readonly offices: readonly OfficeRow[];
  readonly others: readonly HandedRow[];
}

/** A file the program made, to be fetched by its ticket. */
export interface MadeFile {
  readonly ticket: string;
  readonly name: string;
  readonly bytes: number;
}

export interface SheetAnswer extends MadeFile {
  readonly pages: number;
}

export interface MailDraftAnswer extends MadeFile {
  /** Whom it would be too large for, in a sentence. */
  readonly tooLargeFor?: string | undefined;
  readonly attached: readonly string[];
  readonly notes: readonly string[];
}

export interface PacketFilesAnswer {
  readonly packet: string;
  readonly title: string;
  readonly day: Day;
  readonly draft: boolean;
  readonly errand?: string | undefined;
  readonly files: readonly PacketFileRow[];
  /** Names of its files that no longer lie in the lot folder. */
  readonly missing: readonly string[];
}

/** Something that can't be undone, and what has to be settled before it. */
export interface HoldRow {
  readonly hold: string;
  readonly event: string;
  readonly title: string;
  readonly say: string;
  readonly waitsFor: readonly string[];
  /** It hangs on a question not answered yet, and stays shut. */
  readonly unknown: boolean;
}

export interface PacketFileRow {
  readonly name: string;
  readonly sort: string;
  readonly pages: number;
  readonly bytes: number;
  readonly sha256: string;
  /** Fetch or copy the file through this. */
  readonly ticket: string;
}
