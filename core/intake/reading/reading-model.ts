import type { Day } from '../../vocabulary/days.ts';
import type { FactValue } from '../../vocabulary/facts.ts';
import type { SeenRect } from '../../vocabulary/lot.ts';
import type { FactId, KindId } from '../../vocabulary/practice.ts';

/**
 * How far a suggestion may be trusted. `sure`: a label of its own, one reading only, no other value, and on a scan two
 * looks that agree: shown filled in. `likely`: one of these is missing: shown filled in and marked for a look.
 * `guess`: offered, not filled in. Even what is sure becomes a fact only when the person confirms it.
 */
export type Sureness = 'sure' | 'likely' | 'guess';

/** Where something stands. */
export interface Place {
  /** 0-based, within the file. */
  readonly page: number;
  /** On the page as seen: points, origin lower left. */
  readonly box: SeenRect;
  /** The words as they were read there. */
  readonly words: string;
}

export interface Suggestion<T> {
  readonly value: T;
  readonly sureness: Sureness;
  readonly place: Place;
  /** The label or sentence that says what it is; missing where only its shape spoke for it. */
  readonly because?: Place | undefined;
  /** Why it is not sure, whole sentences for the person. */
  readonly doubts: readonly string[];
  /** Other values it could be, likelier first. */
  readonly otherwise: readonly T[];
}

export interface KindSuggestion {
  readonly kind: KindId;
  readonly sureness: Sureness;
  /** The words that gave it away, strongest first. */
  readonly because: readonly Place[];
}

/** Pages of one scan that look like a paper of their own. */
export interface SuggestedCut {
  /** 0-based, both included. */
  readonly from: number;
  readonly to: number;
  readonly kind?: KindId | undefined;
  /** What gave it away that a paper begins here, a whole sentence; missing for the first. */
  readonly because?: string | undefined;
}

/** Everything that reading suggests for one paper. */
export interface PaperReading {
  /** Best first, at most three; empty where nothing speaks for any kind. */
  readonly kinds: readonly KindSuggestion[];
  /** The kind whose facts were looked for: the one asked for, else the best. */
  readonly kind?: KindId | undefined;
  readonly issued?: Suggestion<Day> | undefined;
  readonly effective?: Suggestion<Day> | undefined;
  /** The last good day. */
  readonly goodThrough?: Suggestion<Day> | undefined;
  readonly number?: Suggestion<string> | undefined;
  readonly issuer?: Suggestion<string> | undefined;
  readonly parcel?: Suggestion<string> | undefined;
  readonly address?: Suggestion<string> | undefined;
  readonly owner?: Suggestion<string> | undefined;
  readonly facts: Readonly<Record<FactId, Suggestion<FactValue>>>;
  /** What was seen and left out on purpose, whole sentences. */
  readonly notes: readonly string[];
  /** Where the pages look like several papers: two or more. Left out where they look like one. */
  readonly cuts?: readonly SuggestedCut[] | undefined;
}
