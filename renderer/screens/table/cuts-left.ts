import type { ReadCut, TableItem } from '../../../core/desk/contract/screen-answers.ts';
import { cutLeft } from '../../../core/vocabulary/cut-left.ts';
import { pickedPages } from './picked-pages.ts';

/** A paper that a file looks like, with those of its pages that are still to be kept. */
export interface PartLeft extends ReadCut {
  /** All its pages as they were suggested: what it goes by while some of them are kept. */
  readonly part: string;
}

/** The item as the table will tell of it once these pages are kept as well. */
export function withKept(item: TableItem, pages: string): TableItem {
  return { ...item, keptPages: [...item.keptPages, { pages, title: '', edition: '' }] };
}

/** Whether no paper holds any of these pages yet. */
export function areFree({ suggested, keptPages }: TableItem, said: string): boolean {
  const count = suggested?.pages ?? 0;
  const kept = keptPages.flatMap(({ pages }) => pickedPages(pages, count));
  return pickedPages(said, count).every((page) => !kept.includes(page));
}

/** The papers a file looks like that are still to be kept; none of a file that is kept as a whole. */
export function cutsLeft({ suggested, keptPages, already }: TableItem): readonly PartLeft[] {
  if (already !== undefined) return [];
  const { cuts = [], pages: count = 0 } = suggested ?? {};
  const kept = new Set(keptPages.flatMap(({ pages }) => pickedPages(pages, count)));
  return cuts.flatMap((cut) => {
    return cutLeft({ ...cut, part: cut.pages }, pickedPages(cut.pages, count), kept) ?? [];
  });
}
