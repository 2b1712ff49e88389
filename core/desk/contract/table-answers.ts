import type { Day } from '../../vocabulary/days.ts';
import type { ErrorShape } from '../../vocabulary/errors.ts';
import type { SeenRect } from '../../vocabulary/lot.ts';

/** A folder or file of the lot as it is on this computer: to be shown and copied. No path ever comes back. */
export interface ShownPlace {
  readonly path: string;
  /** For `show-file`, where the host can. */
  readonly ticket: string;
}

/** How a window can show a file. */
export type FileLook = 'pdf' | 'picture' | 'other';

/** How far something read may be trusted. `guess` is offered and never among what is taken at once. */
export type HowSure = 'sure' | 'likely' | 'guess';

/** A value read off a page: a suggestion, until the person takes it. */
export interface ReadValue {
  /** As `keep` takes it. */
  readonly said: string;
  readonly words: string;
  readonly sureness: HowSure;
  /** 0-based, in the order of the paper's pages. */
  readonly page: number;
  /** Points on the page as seen, from its lower left. */
  readonly place: SeenRect;
  /** The words as they stand there. */
  readonly read: string;
  /** The label or sentence that says what it is. */
  readonly because?: string | undefined;
  /** Why it is not sure, or what to look at. */
  readonly doubts: readonly string[];
  readonly otherwise: readonly { readonly said: string; readonly words: string }[];
}

export interface ReadKind {
  readonly kind: string;
  readonly title: string;
  readonly sureness: HowSure;
  /** The words that gave it away, strongest first. */
  readonly because: readonly string[];
}

/** A paper that is kept and seems to be the same one as this: a newer scan or a renewal of it. */
export interface SameAgain {
  readonly edition: string;
  readonly paper: string;
  readonly title: string;
  readonly number: string;
  readonly issued: string;
  /** Whole sentence: what is the same. */
  readonly why: string;
}

/** Pages of one file that look like a paper of their own; nothing is parted before the person says so. */
export interface ReadCut {
  /** As `keep` takes them: "1-2". */
  readonly pages: string;
  readonly kind?: string | undefined;
  /** The kind's, or "a paper" where none could be read. */
  readonly title: string;
  /** What gave it away that a paper begins there, a whole sentence; missing for the first. */
  readonly because?: string | undefined;
}

/** Everything that reading suggests for what lies there; nothing of it is a fact. */
export interface TableSuggestion {
  /** Best first, at most three. */
  readonly kinds: readonly ReadKind[];
  /** The kind whose facts were looked for. */
  readonly kind?: string | undefined;
  readonly issued?: ReadValue | undefined;
  readonly effective?: ReadValue | undefined;
  readonly goodThrough?: ReadValue | undefined;
  readonly number?: ReadValue | undefined;
  readonly issuer?: ReadValue | undefined;
  readonly facts: Readonly<Record<string, ReadValue>>;
  /** How many pages there are, and which of them bear no ink (0-based). */
  readonly pages: number;
  readonly blank: readonly number[];
  readonly again?: SameAgain | undefined;
  /** Where the file looks like several papers, each of them; empty where it looks like one. */
  readonly cuts: readonly ReadCut[];
  /** What was seen and left out on purpose, or does not fit this lot: whole sentences. */
  readonly notes: readonly string[];
}

/** Pages that are kept already, of a file others of whose pages are still to be kept. */
export interface KeptPages {
  /** "1-3, 5" */
  readonly pages: string;
  readonly title: string;
  readonly edition: string;
}

export interface SoundFile {
  /** Its sound pages: what the window can show where it can't show the file itself. */
  readonly ticket: string;
  readonly pages: number;
  /** Pages of the file without ink, 0-based. */
  readonly blank: readonly number[];
  /** How far its pages have to be turned clockwise to stand upright, as most of them lie. */
  readonly turn: 0 | 90 | 180 | 270;
}

export interface ReadAnswer extends TableSuggestion {
  readonly names: readonly string[];
  /** Each file, in order. */
  readonly sound: readonly SoundFile[];
  /** The text of each page. */
  readonly texts: readonly string[];
}

export interface TableItem {
  /** Its name on the table, which no other item bears. */
  readonly item: string;
  readonly ticket: string;
  readonly name: string;
  readonly bytes: number;
  /** Instant, ISO 8601 with zone Z. */
  readonly since: string;
  readonly sort: FileLook;
  /** Somebody still writes to it: it can't be kept yet. */
  readonly arriving: boolean;
  /** These very bytes are kept already, as this paper. */
  readonly already?: string | undefined;
  /** Some of its pages are kept already; it stays until all are, or the rest is said to be of no use. */
  readonly keptPages: readonly KeptPages[];
  /** Pages with ink that no paper holds yet, where some do: "4-9". */
  readonly leftPages?: string | undefined;
  /** `waiting` for its turn to be read, being read, or done with; missing where nobody reads unasked. */
  readonly reading?: 'waiting' | 'under way' | 'done' | undefined;
  /** Why nothing could be read: it is locked, say. */
  readonly unread?: string | undefined;
  readonly suggested?: TableSuggestion | undefined;
}

export interface TableAnswer {
  readonly items: readonly TableItem[];
  /** Names of what was put aside. */
  readonly aside: readonly string[];
  /** Where the table is, in words. */
  readonly folder: string;
  readonly place: ShownPlace;
}

export interface LaidItem {
  readonly item: string;
  readonly name: string;
  readonly bytes: number;
  readonly sha256: string;
  readonly already?: string | undefined;
}

export interface LaidDownAnswer {
  /** Names no act of the history, for there is none: it tells other windows to look at the table again. */
  readonly act: 'table';
  readonly laid: readonly LaidItem[];
  readonly refused: readonly { readonly file: string; readonly error: ErrorShape }[];
  /** What became of e-mails and ZIPs: whole sentences. */
  readonly notes: readonly string[];
}

export interface PutAsideAnswer {
  readonly act: 'table';
  readonly item: string;
  /** The name it bears now. */
  readonly name: string;
}

/** What was inside an e-mail or a ZIP. */
export interface UnpackAnswer {
  readonly act: string;
  readonly item: string;
  /** What lies on the table now. */
  readonly laid: readonly LaidItem[];
  /** The note the mail became. */
  readonly record?: string | undefined;
  /** What was left inside and why; what became of the file itself. Whole sentences. */
  readonly notes: readonly string[];
}

export interface RecordFilesAnswer {
  /** Undefined where nothing was noted. */
  readonly act?: string | undefined;
  readonly noted: readonly {
    readonly record: string;
    readonly title: string;
    readonly day: Day;
    /** Whose word the day is. */
    readonly by: 'you' | 'the camera' | 'today';
    /** These very bytes were noted before: nothing new was. */
    readonly already: boolean;
  }[];
  readonly refused: readonly { readonly file: string; readonly error: ErrorShape }[];
  readonly notes: readonly string[];
}

/** The copy that may be given away. */
export interface BlackOutAnswer {
  readonly act: string;
  readonly edition: string;
  readonly paper: string;
  readonly title: string;
  readonly notes: readonly string[];
}

export interface SlimAnswer {
  readonly title: string;
  /** Bytes. */
  readonly most: number;
  readonly files: readonly {
    readonly ticket: string;
    readonly name: string;
    readonly before: number;
    readonly after: number;
    /** The limit was reached. */
    readonly fits: boolean;
    readonly notes: readonly string[];
  }[];
}
