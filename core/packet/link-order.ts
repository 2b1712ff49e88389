import type { SheetLink } from '../typeset/drawing.ts';
import type { PlanBookmark, PlanLabel, PlanStamp } from './plan-model.ts';

/** A PDF in the regular dialect that keeping writes (classic xref, direct lengths, no object streams, no encryption). */
export interface LinkSource {
  readonly id: string;
  readonly path: string;
  /** Checked while reading; a mismatch refuses the packet and names `title`. */
  readonly sha256: string;
  readonly title: string;
}

export interface LinkPage {
  readonly source: string;
  /** 0-based page of the source. */
  readonly page: number;
  /** Extra clockwise turn laid on the page's own. */
  readonly turn: 0 | 90 | 180 | 270;
  readonly stamp?: PlanStamp | undefined;
  readonly openSaves: number;
  readonly extraRestores: number;
  /** Links to draw on this page (written sheets), to pages of the finished file. */
  readonly links: readonly SheetLink[];
}

/** The face stamps are set in: an embedded font that already stands in one of the sources. */
export interface StampFace {
  readonly source: string;
  /** Object number of the Type0 font dictionary in that source. */
  readonly object: number;
  /** Text -> hex string of glyph codes for `Tj`. */
  encode(text: string): string;
  widthOf(text: string, size: number): number;
}

/** All that goes into one finished file. The same order gives the same bytes. */
export interface LinkOrder {
  readonly title: string;
  readonly subject: string;
  readonly language: string;
  readonly sources: readonly LinkSource[];
  readonly pages: readonly LinkPage[];
  readonly bookmarks: readonly PlanBookmark[];
  readonly labels: readonly PlanLabel[];
  readonly stampFace?: StampFace | undefined;
}

export interface LinkResult {
  readonly sha256: string;
  readonly bytes: number;
  readonly pages: number;
  /** "a link to a page left out was dropped", with counts. */
  readonly notes: readonly string[];
}
