import type { SeenRect } from '../vocabulary/lot.ts';
import type { KindId, QuestionId } from '../vocabulary/practice.ts';

/** Sorts of fields of ISO 32000-1, 12.7.4, as a person knows them. */
export const fieldSorts = ['text', 'tick box', 'radio', 'choice', 'signature', 'button'] as const;
export type FieldSort = (typeof fieldSorts)[number];

/** What a form's own script formats a box as, where it says so. */
export const wantedSorts = ['number', 'date'] as const;
export type WantedSort = (typeof wantedSorts)[number];

/** One place on a page where a field shows (a widget, ISO 32000-1, 12.5.6.19). */
export interface FieldPlace {
  /** 0-based. */
  readonly page: number;
  /** On the page as seen. */
  readonly rect: SeenRect;
  /** Inside of the box as its own content lies: a turned widget has its sides swapped. Points. */
  readonly width: number;
  readonly height: number;
  readonly border: number;
  /** Of tick boxes and radios: the state that marks this place. */
  readonly on?: string | undefined;
}

export interface FieldOption {
  /** What is stored. */
  readonly value: string;
  /** What people read. */
  readonly label: string;
}

/** A field of a blank form; fields of one full name are one field (ISO 32000-1, 12.7.3.2). */
export interface BlankField {
  readonly name: string;
  readonly sort: FieldSort;
  /** The hint a reader shows (/TU). */
  readonly hint?: string | undefined;
  readonly required: boolean;
  readonly readOnly: boolean;
  readonly multiline: boolean;
  /** Letters stand in `longest` equal cells. */
  readonly comb: boolean;
  /** Choices: a value of one's own may be written. */
  readonly ownWords: boolean;
  readonly longest?: number | undefined;
  /** Points; 0 where the letters grow and shrink with the box. */
  readonly size: number;
  readonly align: 'left' | 'centre' | 'right';
  /** Of choices, radios and tick boxes (without "Off"). */
  readonly options: readonly FieldOption[];
  readonly value?: string | undefined;
  readonly wants?: WantedSort | undefined;
  /** The form's own script works its value out. */
  readonly worked: boolean;
  readonly places: readonly FieldPlace[];
}

export interface BlankForm {
  readonly fields: readonly BlankField[];
  readonly pages: number;
  /** How much of the form is XFA (ISO 32000-1, 12.7.8): nothing, beside ordinary fields, or all of it. */
  readonly xfa: 'none' | 'beside' | 'only';
  /** Signed digitally: filling would break the signature. */
  readonly sealed: boolean;
}

/** What is written into one field. */
export type FieldWrite =
  | { readonly field: string; readonly write: 'text'; readonly text: string }
  /** The stored value of a choice, and the words that show. */
  | { readonly field: string; readonly write: 'choice'; readonly value: string; readonly text: string }
  /** The state of a tick box or radio; "Off" for none. */
  | { readonly field: string; readonly write: 'state'; readonly state: string };

/** Where a missing value is entered. */
export type ValueSeat =
  | { readonly at: 'question'; readonly question: QuestionId }
  | { readonly at: 'names' | 'firms' | 'events' }
  | { readonly at: 'paper'; readonly kind: KindId }
  | { readonly at: 'practice' };

export const boxStates = [
  'filled',
  'empty',
  'missing',
  'too long',
  'not among the choices',
  'wrong sort',
  'no such letters',
  'by hand',
  'left',
  'unmapped',
  'not on the form',
] as const;
export type BoxState = (typeof boxStates)[number];

/** States that somebody has to look at before the form goes out. */
export const troubledStates: readonly BoxState[] = [
  'missing',
  'too long',
  'not among the choices',
  'wrong sort',
  'no such letters',
  'not on the form',
];

/** What becomes of one box, and why. */
export interface BoxReading {
  readonly field: string;
  /** What a person would call it: its hint, else its name in words. */
  readonly title: string;
  readonly state: BoxState;
  readonly sort?: FieldSort | undefined;
  /** As it will stand on the page; of a tick box "ticked" or "not ticked", of several squares the one marked. */
  readonly value?: string | undefined;
  /** "your answer to ...", "valuation on ...". */
  readonly from?: string | undefined;
  /** What is wrong or worth knowing: a whole sentence. */
  readonly say?: string | undefined;
  readonly seat?: ValueSeat | undefined;
  readonly place?: FieldPlace | undefined;
  readonly write?: FieldWrite | undefined;
}

export interface FormReading {
  readonly boxes: readonly BoxReading[];
  /** What concerns the form as a whole: whole sentences. */
  readonly notes: readonly string[];
}
