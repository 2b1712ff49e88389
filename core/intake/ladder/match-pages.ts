import type { PageReader } from '../pdfium/page-reader.ts';

export interface MatchedPages {
  /** Which page of the original each kept page is; undefined for one that the reader does not find there. */
  readonly origins: readonly (number | undefined)[];
  readonly notes: readonly string[];
}

/** How many pages a file may claim beyond those it has before nobody counts them through. */
const mostClaimed = 200_000;

function pages(count: number): string {
  return count === 1 ? '1 page' : `${count} pages`;
}

/**
 * Finds for each kept page the one it is compared with. Most often their numbers agree; a file that counts itself wrong
 * claims pages that are not there, or hides some that are.
 * @returns undefined where the kept pages can't be told apart from lost ones
 */
export function matchPages(original: PageReader, kept: number): MatchedPages | undefined {
  const claimed = original.pageCount;
  const first = Array.from({ length: kept }, (_, index) => (index < claimed ? index : undefined));
  if (claimed === kept) return { origins: first, notes: [] };
  if (claimed < kept) {
    const say = `The file says that it has ${pages(claimed)}; ${kept} were found in it, and all of them were kept.`;
    return { origins: first, notes: [say] };
  }
  if (claimed > mostClaimed) return undefined;
  const there: number[] = [];
  for (let index = 0; index < claimed && there.length <= kept; index += 1) if (original.has(index)) there.push(index);
  if (there.length !== kept) return undefined;
  const say = `The file says that it has ${pages(claimed)}; only ${kept} can be found in it. See that none is missing.`;
  return { origins: there, notes: [say] };
}
