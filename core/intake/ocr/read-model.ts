import type { Day } from '../../vocabulary/days.ts';
import type { KindId } from '../../vocabulary/practice.ts';
import type { PageText, TextSource, Turn } from '../reading/page-text.ts';
import type { PaperReading } from '../reading/reading-model.ts';

/** Raised whenever the same page may come out read differently. */
export const readingRecipe = 4;

/** The job of reading a file's words, handed to the worker program. Sound pages are read, not hostile originals. */
export interface ReadJob {
  readonly job: 'read';
  readonly input: string;
  /** The name the person knows it by, for sentences. */
  readonly name: string;
}

export interface ReadDone {
  readonly pages: readonly PageText[];
}

/** Reads a file's words into a file: with all their places they are too many to be sent about. */
export interface WriteOutJob {
  readonly job: 'write out';
  readonly input: string;
  readonly name: string;
  /** Where the pages' words are written, as JSON; a `SuggestJob` reads them again. */
  readonly output: string;
}

/** A page that was written out, as far as whoever asked for it needs to know at once. */
export interface WrittenPage {
  /** 0-based, within the file. */
  readonly page: number;
  readonly source: TextSource;
  /** No ink stands on it. */
  readonly blank: boolean;
  /** How far it has to be turned clockwise to stand upright. */
  readonly turn: Turn;
  readonly text: string;
}

export interface WriteOutDone {
  readonly written: readonly WrittenPage[];
}

/** Pages of one file that belong to a paper. */
export interface ReadPart {
  /** What a `WriteOutJob` wrote of the file. */
  readonly texts: string;
  /** 0-based, in the paper's order; all of them where it is left out. */
  readonly pages?: readonly number[] | undefined;
}

/** From words that were written out to what they suggest: a matter of thinking, done where nobody waits for it. */
export interface SuggestJob {
  readonly job: 'suggest';
  readonly name: string;
  readonly parts: readonly ReadPart[];
  /** The practice in force, as JSON. */
  readonly practice: string;
  readonly today: Day;
  /** The kind whose facts to look for; the best one where it is left out. */
  readonly kind?: KindId | undefined;
}

export interface SuggestDone {
  readonly reading: PaperReading;
}
