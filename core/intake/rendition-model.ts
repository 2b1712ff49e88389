import type { PageFacts, SeenRect } from '../vocabulary/lot.ts';
import type { SealReading } from '../vocabulary/seals.ts';

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
  /** What each of them says, read off the file as it came; left out where there is none. */
  readonly seals?: readonly SealReading[] | undefined;
  /** What was asked for beyond sound pages, as JSON; left out for the file's own pages. */
  readonly asked?: string | undefined;
  /** What was dropped or noticed, whole sentences for the person. */
  readonly notes: readonly string[];
}

/** A point of a picture as seen: fractions of its width and height, from the upper left. */
export interface PicturePoint {
  readonly x: number;
  readonly y: number;
}

/** What to mend in a photo or scan of a sheet; the file itself stays as it came. */
export interface CleanUp {
  /** Cut out the sheet and lay it flat: found by itself, or by its corners (upper left, then clockwise). */
  readonly crop?: 'find' | readonly [PicturePoint, PicturePoint, PicturePoint, PicturePoint] | undefined;
  /** Level a sheet that lay askew on the glass. */
  readonly straighten?: boolean | undefined;
  /** Even out shadows; paper becomes white. */
  readonly contrast?: boolean | undefined;
}

/** A place on a page that nobody is to read. Points on the page as seen, from its lower left. */
export interface BlackOut {
  /** 0-based, in the rendition. */
  readonly page: number;
  readonly place: SeenRect;
}

/** What the person asks to be done while a file is kept; each recipe makes a rendition of its own. */
export interface KeepRecipe {
  readonly clean?: CleanUp | undefined;
  readonly blackOut?: readonly BlackOut[] | undefined;
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
  /** Left out: pages as they came. */
  readonly recipe?: KeepRecipe | undefined;
}

export interface KeepDone {
  readonly rendition: Rendition;
  readonly sha256: string;
  readonly bytes: number;
}
