import type { BoxState, FieldSort, ValueSeat } from '../../forms/form-model.ts';
import type { SeenRect } from '../../vocabulary/lot.ts';
import type { Basis } from '../../vocabulary/practice.ts';
import type { MadeFile } from './screen-answers.ts';

/** One box of an office's form: what stands in it, from where, or why nothing does. */
export interface FormBoxRow {
  readonly field: string;
  /** Its hint, or its name in words. */
  readonly title: string;
  readonly state: BoxState;
  readonly sort?: FieldSort | undefined;
  readonly value?: string | undefined;
  readonly from?: string | undefined;
  /** Whole sentence: what is wrong, or worth knowing. */
  readonly say?: string | undefined;
  /** Where a missing value is entered. */
  readonly seat?: ValueSeat | undefined;
  /** 0-based, with its place on the page as seen; undefined for a box that isn't on the form. */
  readonly page?: number | undefined;
  readonly place?: SeenRect | undefined;
  /** What it most likely asks for, where nobody mapped it: sources as a mapping writes them. */
  readonly offered: readonly string[];
}

/** A kept paper that could be the blank. */
export interface BlankRow {
  readonly edition: string;
  readonly paper: string;
  readonly title: string;
  readonly boxes: number;
}

/** Something a box can be filled from, for whoever maps a form. */
export interface SourceRow {
  /** As a mapping writes it. */
  readonly is: string;
  readonly title: string;
}

export interface FormAnswer {
  /** Id of the mapping; `fill: forms/<id>` in the need. */
  readonly form: string;
  readonly title: string;
  readonly errand: string;
  readonly need: string;
  readonly kind: string;
  readonly kindTitle: string;
  readonly subject?: string | undefined;
  /** False where the practice here has no mapping for it yet. */
  readonly mapped: boolean;
  readonly basis?: Basis | undefined;
  /** The blank that is filled; undefined where none is in the lot. */
  readonly blank?:
    | (BlankRow & {
        readonly how: 'this very file' | 'its boxes' | 'another issue' | 'named';
        /** Its sound pages, to be shown. */
        readonly ticket: string;
        readonly pages: readonly { readonly width: number; readonly height: number }[];
      })
    | undefined;
  /** Other kept papers with boxes, where none was recognised. */
  readonly candidates: readonly BlankRow[];
  /** Where no blank was recognised: papers not looked at, each only a part of its file. */
  readonly partsOfFiles: readonly { readonly paper: string; readonly title: string }[];
  readonly flatten: boolean;
  readonly wordedByLaw: boolean;
  readonly boxes: readonly FormBoxRow[];
  readonly counts: {
    readonly filled: number;
    readonly troubled: number;
    readonly unmapped: number;
    readonly byHand: number;
  };
  /** Whole sentences about the form as a whole. */
  readonly notes: readonly string[];
  /** The newest filled copy, and what would be filled otherwise today. */
  readonly filled?:
    | {
        readonly edition: string;
        readonly paper: string;
        readonly outOfDate: readonly { readonly title: string; readonly was: string; readonly now: string }[];
      }
    | undefined;
  readonly sources: readonly SourceRow[];
  readonly caution: string;
}

export interface FilledAnswer extends MadeFile {
  /** Undefined where the copy was only looked at, or is kept already. */
  readonly act?: string | undefined;
  readonly edition?: string | undefined;
  readonly paper?: string | undefined;
  readonly title: string;
  readonly boxes: number;
  /** The very same copy is in the lot already. */
  readonly already: boolean;
  /** Boxes that stay empty and shouldn't: whole sentences. */
  readonly left: readonly string[];
  readonly notes: readonly string[];
}

export interface MapAnswer {
  readonly act: string;
  readonly form: string;
  readonly boxes: number;
}
