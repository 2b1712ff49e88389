import type { ReadCut, TableItem } from '../../../core/desk/contract/screen-answers.ts';
import { pagesInWords } from '../../../core/vocabulary/page-picks.ts';
import { pickedPages } from './picked-pages.ts';

/**
 * The papers a file looks like that are still to be kept; of one that is kept in part, what is left.
 * @param justKept pages kept this moment, which the table does not know of yet
 */
export function cutsLeft({ suggested, keptPages }: TableItem, justKept?: string): readonly ReadCut[] {
  const { cuts = [], pages: count = 0 } = suggested ?? {};
  const kept = new Set(keptPages.flatMap(({ pages }) => pickedPages(pages, count)));
  if (justKept !== undefined) for (const page of pickedPages(justKept, count)) kept.add(page);
  return cuts.flatMap((cut) => {
    const left = pickedPages(cut.pages, count).filter((page) => !kept.has(page));
    return left.length === 0 ? [] : [{ ...cut, pages: pagesInWords(left) }];
  });
}
