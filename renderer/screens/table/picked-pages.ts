import { LotfileError } from '../../../core/vocabulary/errors.ts';
import { pagesOf } from '../../../core/vocabulary/page-picks.ts';

/** Every page, 0-based. */
export const all = (count: number): readonly number[] => Array.from({ length: count }, (_, page) => page);

/** What is wrong with the pages as typed; undefined where they can be read. */
export function wrongPages(said: string, count: number, name: string): string | undefined {
  if (!/^[\d\s,-]*$/.test(said) || /--|,,|[-,]$/.test(said.replace(/\s/g, ''))) return 'Write pages such as 1-3, 5.';
  try {
    pagesOf(said, count, name);
    return undefined;
  } catch (error) {
    return LotfileError.from(error).message;
  }
}

/** Pages of a draft's file, 0-based; what can't be read counts as all. */
export function pickedPages(said: string, count: number): readonly number[] {
  return wrongPages(said, count, '') === undefined ? (pagesOf(said, count, '') ?? all(count)) : all(count);
}
