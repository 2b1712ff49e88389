import type { Day } from './days.ts';
import type { Cents } from './money.ts';

/** What sort of thing a fact is. Lengths in feet, areas in square feet, volumes in cubic feet, flows in cfm. */
export const factSorts = [
  'text',
  'count',
  'number',
  'day',
  'money',
  'name',
  'address',
  'parcel number',
  'revision',
  'yes or no',
  'length',
  'area',
  'volume',
  'flow',
  'elevation',
  'percent',
  'choice',
] as const;

export type FactSort = (typeof factSorts)[number];

/** An elevation means nothing without its vertical datum; two datums are never compared. */
export interface Elevation {
  readonly feet: number;
  readonly datum: string;
}

export type FactValue =
  | { readonly sort: 'text' | 'name' | 'address' | 'parcel number' | 'revision' | 'choice'; readonly value: string }
  | { readonly sort: 'count' | 'number' | 'length' | 'area' | 'volume' | 'flow' | 'percent'; readonly value: number }
  | { readonly sort: 'money'; readonly value: Cents }
  | { readonly sort: 'day'; readonly value: Day }
  | { readonly sort: 'yes or no'; readonly value: boolean }
  | { readonly sort: 'elevation'; readonly value: Elevation };

/** An answer to a question about the lot. "Don't know yet" is an answer of its own. */
export type Answer = FactValue | { readonly sort: "don't know yet" };

/** True, false, or not known: the three values every rule works with. */
export type Truth = true | false | 'unknown';
