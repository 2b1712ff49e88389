import type { PageFacts } from '../vocabulary/lot.ts';

/** Which way the sound pages were made; the first that loses nothing is used. */
export const keepRungs = [
  'normalised',
  're-saved, then normalised',
  'fields drawn, then normalised',
  'imported, then normalised',
  'pages as pictures',
  'picture to page',
] as const;

export type KeepRung = (typeof keepRungs)[number];

/** What keeping a file yields: sound pages in a new file, and everything measured on them. */
export interface Rendition {
  readonly source: string;
  readonly recipe: string;
  readonly tool: string;
  readonly rung: KeepRung;
  readonly pages: readonly PageFacts[];
  /** A digital signature field that is signed stands in the original. */
  readonly sealed: boolean;
  /** What was dropped or noticed, whole sentences for the person. */
  readonly notes: readonly string[];
}

/** The job handed to the worker program: paths only. */
export interface KeepJob {
  readonly job: 'keep';
  readonly input: string;
  /** The name the person knows it by, for sentences. */
  readonly name: string;
  /** Where the worker writes the sound pages; the desk renames. */
  readonly output: string;
  /** What the person gave to open a locked file with. It is written nowhere. */
  readonly password?: string | undefined;
}

export interface KeepDone {
  readonly rendition: Rendition;
  readonly sha256: string;
  readonly bytes: number;
}
