import type { Day } from '../../vocabulary/days.ts';

/** A short look at a photo or a receipt: a small picture to tell it by, and the day it was taken. */
export interface GlimpseJob {
  readonly job: 'glimpse';
  readonly input: string;
  /** The name the person knows it by, for sentences. */
  readonly name: string;
  /** Where the small picture, a JPEG, is written. */
  readonly output: string;
  /** The room it has to fit into, in dots; left out: what a small picture on the screen wants. */
  readonly room?: { readonly width: number; readonly height: number } | undefined;
}

export interface GlimpseDone {
  readonly glimpse: { readonly width: number; readonly height: number };
  /** By the camera's own clock. */
  readonly taken?: Day | undefined;
}

/** Raised whenever small pictures come out otherwise. */
export const glimpseRecipe = 1;
