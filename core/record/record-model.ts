/** The house record as data, before it is written: what stands in the index and where its files lie. */

export interface RecordLink {
  readonly label: string;
  /** With "/", from the index. */
  readonly path: string;
}

export interface RecordPaper {
  readonly title: string;
  readonly number: string;
  readonly issued: string;
  /** "good through 14 Mar 2026", "replaced", "closed" ... */
  readonly state: string;
  /** An edition in whose place another counts now. */
  readonly earlier: boolean;
  readonly links: readonly RecordLink[];
}

export interface RecordOffice {
  readonly title: string;
  readonly papers: readonly RecordPaper[];
}

export interface RecordTable {
  readonly title: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly (string | RecordLink)[])[];
}

export interface HouseRecord {
  readonly title: string;
  readonly day: string;
  readonly facts: readonly (readonly [label: string, value: string])[];
  readonly whole: readonly RecordLink[];
  readonly offices: readonly RecordOffice[];
  readonly tables: readonly RecordTable[];
  readonly leftOut: readonly { readonly title: string; readonly why: string }[];
}
