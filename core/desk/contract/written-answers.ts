import type { Day } from '../../vocabulary/days.ts';
import type { MadeFile } from './screen-answers.ts';

/** A paper the program wrote by itself; it lies in the working folder until the lot is closed. */
export interface WrittenAnswer extends MadeFile {
  readonly title: string;
  readonly pages: number;
  /** What to know before it goes out. */
  readonly notes: readonly string[];
}

/** One line of what changed since the last calendar file. */
export interface CalendarChange {
  readonly sort: 'new' | 'moved' | 'reworded' | 'gone';
  readonly title: string;
  readonly day: Day;
  /** Where it stood before; of what moved. */
  readonly was?: Day | undefined;
}

export interface CalendarAnswer extends MadeFile {
  readonly events: number;
  /** The day of the file made before; undefined for the first. */
  readonly before?: Day | undefined;
  readonly changes: readonly CalendarChange[];
}

export interface BundleAnswer extends MadeFile {
  readonly sha256: string;
  /** Files inside beside the database, all read back. */
  readonly files: number;
  /** What could not go along, or changed on the disk since it was kept. */
  readonly notes: readonly string[];
}

export interface RestoreAnswer {
  /** What verify found in the new folder; empty where every byte is as it was kept. */
  readonly notes: readonly string[];
  readonly lot: string;
  readonly title: string;
  readonly files: number;
  readonly bytes: number;
}

export interface MendAnswer {
  readonly title: string;
  /** What was read, what came from a copy, what is gone. */
  readonly notes: readonly string[];
}

/** A row that both laptops changed, side by side. */
export interface MergeConflict {
  /** What `choices` names it by. */
  readonly key: string;
  /** "Paper: Boundary survey, field number". */
  readonly what: string;
  readonly mine: string;
  readonly theirs: string;
  readonly chosen?: 'mine' | 'theirs' | undefined;
}

export interface MergeAnswer {
  /** Undefined where nothing was taken over: all was equal, or conflicts wait for a choice. */
  readonly act?: string | undefined;
  readonly title: string;
  /** "3 papers", "2 visits": what came over, or would. */
  readonly taken: readonly string[];
  readonly conflicts: readonly MergeConflict[];
  readonly notes: readonly string[];
}

export interface HouseRecordAnswer {
  /** Where it was written, in words; empty where it was made as one zip file. */
  readonly place: string;
  readonly papers: number;
  readonly files: number;
  readonly bytes: number;
  /** Titles left out because they are private or have no pages. */
  readonly leftOut: readonly { readonly title: string; readonly why: string }[];
  readonly notes: readonly string[];
}
