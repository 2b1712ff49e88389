import type { Edition, Paper } from '../../vocabulary/lot.ts';
import type { Need, Office, PaperKind } from '../../vocabulary/practice.ts';
import type { EditionContent, KeptFile, PlanTab } from '../plan-model.ts';

/** How the pages of a paper come into the packet. */
export type RowPages =
  | { readonly how: 'linked'; readonly content: EditionContent; readonly reference: boolean }
  | { readonly how: 'none' };

/** An edition that goes under the tab of the paper it extends, amends or carries on, after its pages. */
export interface Rider {
  readonly edition: Edition;
  readonly title: string;
  readonly pages: RowPages;
}

/** A tab with all that is needed to lay it out: the working row behind a {@link PlanTab}. */
export interface Row {
  readonly tab: PlanTab;
  readonly kind: PaperKind | undefined;
  readonly office: Office | undefined;
  readonly need: Need | undefined;
  readonly paper: Paper | undefined;
  readonly edition: Edition | undefined;
  /** The paper's own title; that of the tab tells its riders too. */
  readonly title: string;
  readonly pages: RowPages;
  readonly riders: readonly Rider[];
  /** Originals that travel beside the packet, byte for byte. */
  readonly beside: readonly KeptFile[];
  readonly sealed: boolean;
  readonly lapsing: boolean;
  /** Earliest day a missing paper could be had, in words. */
  readonly expected?: string | undefined;
}

/** Tabs and the whole sentences to tell beside the packet. */
export interface Rows {
  readonly rows: readonly Row[];
  readonly notes: readonly string[];
}
