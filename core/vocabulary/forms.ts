import type { Basis, Condition, EventId, FactId, KindId, OfficeId, QuestionId } from './practice.ts';

/** Id of a mapped form, as `fill: forms/application` names it without "forms/". */
export type FormId = string;

/** What of a paper can stand on a form besides its own facts. */
export const paperDetails = ['number', 'issuer', 'revision', 'issued', 'effective', 'good_through'] as const;

export const officeDetails = ['title', 'street', 'phone', 'payee'] as const;
export type OfficeDetail = (typeof officeDetails)[number];

export const firmDetails = ['firm', 'trade', 'from', 'to'] as const;
export type FirmDetail = (typeof firmDetails)[number];

/** Where the value of a box comes from. Closed: whatever else a form asks becomes a question of the lot. */
export type FormSource =
  /** All owners as printed, or the n-th of them (from 1). */
  | { readonly of: 'owner'; readonly which?: number | undefined }
  | { readonly of: 'place' }
  | { readonly of: 'parcel' }
  | { readonly of: 'lot'; readonly question: QuestionId }
  /** A fact, or one of `paperDetails`. */
  | { readonly of: 'paper'; readonly kind: KindId; readonly fact: FactId }
  | { readonly of: 'figure'; readonly figure: string }
  | { readonly of: 'office'; readonly office: OfficeId; readonly detail: OfficeDetail }
  | { readonly of: 'event'; readonly event: EventId }
  /** Of the engagement the form or the row is for. */
  | { readonly of: 'firm'; readonly detail: FirmDetail }
  | { readonly of: 'words'; readonly words: string };

/** How a value is printed where its usual way won't do. */
export const printings = [
  'm/d/yyyy',
  'mm/dd/yyyy',
  'yyyy-mm-dd',
  'in words',
  'day',
  'month',
  'year',
  'digits',
  'no sign',
  'with cents',
  'with unit',
  'capitals',
  'letters and digits',
] as const;
export type Printing = (typeof printings)[number];

/** What is done with one box of a form. `field` is its full name (ISO 32000-1, 12.7.3.2). */
export type FormBox =
  | {
      readonly do: 'write';
      readonly field: string;
      /** One, or several written behind each other. */
      readonly sources: readonly FormSource[];
      readonly between: string;
      readonly as?: Printing | undefined;
      /** What the form calls an answer: {septic: On-site}. */
      readonly words: Readonly<Record<string, string>>;
      /** The fact of the filled paper that this box shows. */
      readonly fact?: FactId | undefined;
      /** Nothing is missed where there is no value. */
      readonly optional: boolean;
    }
  | { readonly do: 'tick'; readonly field: string; readonly when: Condition }
  /** Signatures, notary, days signed: never filled. */
  | { readonly do: 'by hand'; readonly field: string }
  | { readonly do: 'leave'; readonly field: string; readonly why: string };

/** Boxes that repeat: `{n}` in their names counts from 1. */
export interface FormRows {
  readonly id: string;
  readonly each: 'engagement';
  /** How many the form has room for. */
  readonly room: number;
  readonly boxes: readonly FormBox[];
}

/** An office's fillable form, mapped once to what the lot knows. */
export interface FormRule {
  readonly id: FormId;
  readonly title: string;
  readonly office?: OfficeId | undefined;
  /** Names of boxes that give the blank away; all of them must be there. */
  readonly knownBy: readonly string[];
  /** SHA-256 of the blank, where it is known. */
  readonly sha256?: string | undefined;
  /** Values become part of the page; otherwise the copy stays fillable. */
  readonly flatten: boolean;
  /** A law words what it says: only blanks are filled, nothing is ticked, chosen or worded by us. */
  readonly wordedByLaw: boolean;
  readonly boxes: readonly FormBox[];
  readonly rows: readonly FormRows[];
  readonly basis: Basis;
}

/** What a filled copy was filled with: the text of each box by its name, "" where it stayed empty. Kept with its pages. */
export interface FilledWith {
  readonly form: FormId;
  readonly values: Readonly<Record<string, string>>;
  /** What the form itself calls its boxes, where it does. */
  readonly titles?: Readonly<Record<string, string>> | undefined;
}

const marker = '; filled/1 ';

/** The recipe of a filled copy's pages: how they were kept, and what was filled in. */
export function filledRecipe(recipe: string, filled: FilledWith): string {
  return `${recipe}${marker}${JSON.stringify(filled)}`;
}

/** The recipe without what was filled in: how the pages were kept. */
export function bareRecipe(recipe: string): string {
  return recipe.split(marker, 1)[0] ?? recipe;
}

function isTexts(value: unknown): value is Readonly<Record<string, string>> {
  return typeof value === 'object' && value !== null && Object.values(value).every((text) => typeof text === 'string');
}

/** What pages were filled with; undefined for pages that nobody filled by a mapping. */
export function filledFrom(recipe: string): FilledWith | undefined {
  const at = recipe.indexOf(marker);
  if (at < 0) return undefined;
  const said: unknown = JSON.parse(recipe.slice(at + marker.length));
  if (typeof said !== 'object' || said === null || !('form' in said) || !('values' in said)) return undefined;
  if (typeof said.form !== 'string' || !isTexts(said.values)) return undefined;
  const titles = 'titles' in said && isTexts(said.titles) ? { titles: said.titles } : {};
  return { form: said.form, values: said.values, ...titles };
}

/** A box whose value is another since the copy was filled, to stand in a sentence; "" is an empty box. */
export function changeInWords({ was, now }: { readonly was: string; readonly now: string }): string {
  const then = was === '' ? 'left empty' : `filled with "${was}"`;
  return `${then}, and ${now === '' ? 'there is none' : `it is "${now}"`} by now`;
}
