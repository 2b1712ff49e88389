import { pagesInWords } from './page-picks.ts';

/** A paper that a scan of many looks like. */
interface Cut {
  readonly pages: string;
  readonly kind?: string | undefined;
  readonly title: string;
  readonly because?: string | undefined;
}

/**
 * What is left of a suggested paper once some of its pages are kept: the same one while its first page, whose heading
 * named it, is among them; else a paper nobody has named, for the pages behind may be another.
 * @param pages its pages in order, 0-based
 * @param kept pages of the file that a paper holds already
 * @returns undefined where nothing is left
 */
export function cutLeft<C extends Cut>(cut: C, pages: readonly number[], kept: ReadonlySet<number>): C | undefined {
  const left = pages.filter((page) => !kept.has(page));
  if (left.length === 0) return undefined;
  const said = { ...cut, pages: pagesInWords(left) };
  return left[0] === pages[0] ? said : { ...said, kind: undefined, title: 'A paper', because: undefined };
}
