import type { Field, Half } from './wordings.ts';

/** What a printed field is the truth of. */
export type TruthSlot = 'issued' | 'effective' | 'goodThrough' | 'number' | 'parcel' | 'address' | 'owner';

export interface FieldUse {
  readonly field: Field;
  readonly slots?: readonly TruthSlot[];
  readonly facts?: readonly string[];
}

/** One invented office's paper of a kind: its words, in two halves that share as little as they can. */
export interface KindSpec {
  readonly kind: string;
  readonly from: 'county' | 'firm' | 'insurer' | 'lender' | 'board';
  readonly titles: Readonly<Record<Half, readonly string[]>>;
  readonly offices: Readonly<Record<Half, readonly string[]>>;
  readonly fields: readonly FieldUse[];
  /** {owner} {address} {parcel} {county} {firm} stand for the cast. */
  readonly prose: Readonly<Record<Half, readonly string[]>>;
  readonly labels?: Partial<Readonly<Record<Field, Readonly<Record<Half, readonly string[]>>>>>;
  readonly numberShape: readonly string[];
  /** Months or days it is good; where `said` is yes, often told in a sentence instead of a date. */
  readonly good?: { readonly months?: number; readonly days?: number; readonly said: boolean };
  /** The blank form itself carries an expiry. */
  readonly formExpires?: boolean;
}

export const number: FieldUse = { field: 'number', slots: ['number'] };
export const issued: FieldUse = { field: 'issued', slots: ['issued'] };
export const expires: FieldUse = { field: 'expires', slots: ['goodThrough'] };
export const parcel: FieldUse = { field: 'parcel', slots: ['parcel'], facts: ['parcel'] };
export const address: FieldUse = { field: 'address', slots: ['address'], facts: ['address'] };
export const owner: FieldUse = { field: 'owner', slots: ['owner'], facts: ['owner'] };
