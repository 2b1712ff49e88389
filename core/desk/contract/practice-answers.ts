import type { Day } from '../../vocabulary/days.ts';

export const ruleSorts = ['count', 'money', 'words', 'list', 'days', 'size', 'yes or no', 'choice'] as const;
export type RuleSort = (typeof ruleSorts)[number];

/**
 * One rule that "the clerk said otherwise" may change; `rule` and a value of the sort go to `clerk-said` as they are:
 * a number for a count, true or false, words ("240 usd", "free", "30 days", "25 MB"), a list of words. The word "drop"
 * takes away a value that is laid down.
 */
export interface AmendableRow {
  readonly rule: string;
  /** What the rule is about ("Building plans"); rows of one group stand together. */
  readonly group: string;
  readonly label: string;
  /** A plain sentence with the present value. */
  readonly say: string;
  readonly sort: RuleSort;
  /** The present value as `clerk-said` takes it; undefined where nothing is laid down. */
  readonly value?: string | number | boolean | readonly string[] | undefined;
  readonly choices?: readonly string[] | undefined;
  readonly basis: string;
}

/** One thing that would be otherwise on this lot. */
export interface EffectRow {
  readonly say: string;
  readonly errand?: string | undefined;
  /** It makes the way harder (later, dearer, something to object to), easier, or just different. */
  readonly way: 'harder' | 'easier' | 'other';
}

/** What a change of the practice would do to this lot, before it is noted. */
export interface EffectAnswer {
  readonly rows: readonly EffectRow[];
  /** Rows left out because there were too many. */
  readonly more: number;
  /** Titles of the layers that would be laid over. */
  readonly layers: readonly string[];
}

export interface LaidOverAnswer {
  readonly act: string;
  readonly layers: readonly string[];
}

export interface AmendableAnswer {
  readonly title: string;
  readonly rows: readonly AmendableRow[];
}

export interface AnotherPaperAnswer {
  readonly act: string;
  /** The need it became, and its kind of paper. */
  readonly need: string;
  readonly kind: string;
  readonly title: string;
  /** What other errands say otherwise now, for the kind's own condition went: one sentence each. */
  readonly elsewhere: readonly string[];
}

/** What one word changed, in plain words. */
export interface WordChange {
  /** "Apply for the building permit, Fee" */
  readonly rule: string;
  /** "No fee is known."; not told of words that were noted before it was kept. */
  readonly was?: string | undefined;
  /** "The fee is $385." */
  readonly now: string;
}

export interface OfficeWordRow {
  readonly word: string;
  readonly office: string;
  readonly officeTitle: string;
  readonly who: string;
  readonly day: Day;
  /** What was changed; their own words where they were noted. */
  readonly said: string;
  readonly change: WordChange;
  /** Their own words, where they were noted. */
  readonly remark?: string | undefined;
  readonly layer: string;
  /** The act in the history that brought it. */
  readonly act?: string | undefined;
}

export interface WordsAnswer {
  /** Newest first. */
  readonly words: readonly OfficeWordRow[];
  /** In the order they are laid over each other. */
  readonly layers: readonly { readonly name: string; readonly sort: 'common' | 'local' | 'word' }[];
}
