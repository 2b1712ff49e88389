import type { Day } from '../vocabulary/days.ts';
import type { FactValue } from '../vocabulary/facts.ts';
import type { Subject } from '../vocabulary/lot.ts';
import type { Term } from '../vocabulary/practice.ts';

/** The values a figure works on, by the names in its `needs`; undefined where the lot doesn't know one. */
export type FigureArgs = Readonly<Record<string, FactValue | undefined>>;

/** What a figure may know beyond its values: the day asked about and the subject it is asked for. */
export interface FigureContext {
  readonly day: Day;
  readonly subject?: Subject | undefined;
}

/** Two ends, both still usual. */
export type Usual = readonly [least: number, most: number];

/** A published limit to hold a figure against. Which limit counts is the office's to say, so none decides anything. */
export interface FigureLimit {
  readonly say: string;
  readonly source: string;
  /** A number in the figure's unit, or another figure's answer. */
  readonly least?: number | undefined;
  readonly most?: number | { readonly figure: string } | undefined;
}

/** Where a licensed person's paper prints the same number, and how far roundings alone may part the two. */
export interface PrintedNumber {
  readonly terms: readonly Term[];
  readonly within: number;
}

/** A named formula that a practice file may compare by `figure.<id>`. */
export interface Figure {
  readonly id: string;
  readonly title: string;
  /** Unit of the answer, in words a person reads. */
  readonly unit: string;
  /** Where the formula comes from. */
  readonly source: string;
  /** What it doesn't say; shown wherever the figure is. */
  readonly caution: string;
  /** Where each value may be taken from, first known first. */
  readonly needs: Readonly<Record<string, readonly Term[]>>;
  /** What an input usually lies between: outside it a digit was likely misread. Common practice, no source. */
  readonly usual?: Readonly<Record<string, Usual>> | undefined;
  /** The same of the answer. */
  readonly usualAnswer?: Usual | undefined;
  readonly printed?: PrintedNumber | undefined;
  /** Another usual way to reckon the same number: where one of them agrees with the paper, both are explained. */
  readonly otherWay?: string | undefined;
  readonly limits?: readonly FigureLimit[] | undefined;
  compute(args: FigureArgs, context: FigureContext): FactValue | 'unknown';
}

export function paper(kind: string, fact: string): Term {
  return { of: 'paper', kind, fact };
}

export function lot(question: string): Term {
  return { of: 'lot', question };
}

/** The plain number of a value, whatever its unit; undefined for words, dates and elevations. */
export function numberIn(value: FactValue | undefined): number | undefined {
  return value !== undefined && typeof value.value === 'number' ? value.value : undefined;
}

/** An answer where the arithmetic gave one, else 'unknown': no figure ever guesses. */
export function answered(
  sort: 'number' | 'flow' | 'percent' | 'area',
  value: number | undefined,
): FactValue | 'unknown' {
  return value === undefined || !Number.isFinite(value) ? 'unknown' : { sort, value };
}

/** Money in whole cents; a fraction of a cent is rounded half up. */
export function money(cents: number | undefined): FactValue | 'unknown' {
  return cents === undefined || !Number.isFinite(cents) ? 'unknown' : { sort: 'money', value: Math.round(cents) };
}
