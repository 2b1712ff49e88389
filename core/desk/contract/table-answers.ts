import type { ErrorShape } from '../../vocabulary/errors.ts';

/** How a window can show a file. */
export type FileLook = 'pdf' | 'picture' | 'other';

/** What a reading of the pages would fill in; nothing suggests yet. */
export interface TableSuggestion {
  readonly kind?: string | undefined;
  readonly title?: string | undefined;
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
  readonly suggested?: TableSuggestion | undefined;
}

export interface TableAnswer {
  readonly items: readonly TableItem[];
  /** Names of what was put aside. */
  readonly aside: readonly string[];
  /** Where the table is, in words. */
  readonly folder: string;
}

export interface LaidDownAnswer {
  /** Names no act of the history, for there is none: it tells other windows to look at the table again. */
  readonly act: 'table';
  readonly laid: readonly {
    readonly item: string;
    readonly name: string;
    readonly bytes: number;
    readonly sha256: string;
    readonly already?: string | undefined;
  }[];
  readonly refused: readonly { readonly file: string; readonly error: ErrorShape }[];
}

export interface PutAsideAnswer {
  readonly act: 'table';
  readonly item: string;
  /** The name it bears now. */
  readonly name: string;
}
