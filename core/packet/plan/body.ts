import { LotfileError } from '../../vocabulary/errors.ts';
import type { EditionId, EditionPage } from '../../vocabulary/lot.ts';
import type { Row } from './row.ts';

export type LeafSort = 'divider' | 'out card';

/** One numbered sheet after cover and index; `n` counts through the whole packet, all volumes. */
export type BodySheet =
  | { readonly of: 'leaf'; readonly sort: LeafSort; readonly row: Row; readonly n: number }
  | {
      readonly of: 'page';
      readonly row: Row;
      readonly edition: EditionId;
      /** Of the very paper the page is of, a rider's own where it is one. */
      readonly title: string;
      readonly page: EditionPage;
      readonly n: number;
    };

/** All sheets of one tab, never parted by a volume. */
export interface BodyTab {
  readonly row: Row;
  readonly sheets: readonly BodySheet[];
  /** Rough size in bytes of the sheets in the finished file. */
  readonly bytes: number;
}

/** A sheet we write, and what stamp, bookmark and dictionary add to a page of a paper: measured over 60 packets. */
export const leafBytes = 2_200;
export const pageBytes = 1_100;

/** Lays the tabs out one after the other and numbers their sheets from 1. */
export function layBody(rows: readonly Row[], dividers: boolean): readonly BodyTab[] {
  let n = 0;
  return rows.map((row): BodyTab => {
    const sheets: BodySheet[] = [];
    const sort = leafOf(row, dividers);
    if (sort !== undefined) {
      n += 1;
      sheets.push({ of: 'leaf', sort, row, n });
    }
    for (const { edition, title, pages } of [row, ...row.riders]) {
      if (pages.how === 'none') continue;
      if (edition === undefined) throw new LotfileError('internal', `Tab ${row.tab.tab} has pages but no edition.`);
      for (const page of pages.content.pages) {
        n += 1;
        sheets.push({ of: 'page', row, edition: edition.id, title, page, n });
      }
    }
    const bytes = sheets.reduce(
      (sum, one) => sum + (one.of === 'page' ? one.page.facts.bytes + pageBytes : leafBytes),
      0,
    );
    return { row, sheets, bytes };
  });
}

/** A missing paper always keeps its place; a reference copy is always told before its pages. */
function leafOf(row: Row, dividers: boolean): LeafSort | undefined {
  if (row.tab.place === 'missing') return 'out card';
  if (row.tab.place === 'to follow') return undefined;
  if (row.pages.how === 'linked' && row.pages.reference) return 'divider';
  return dividers ? 'divider' : undefined;
}
