import { LotfileError } from './errors.ts';

/**
 * Pages as a person writes them ("1-3, 5", counted from 1) as page numbers counted from 0, in the order written.
 * @returns undefined where nothing is written: all pages.
 */
export function pagesOf(said: string | undefined, count: number, name: string): readonly number[] | undefined {
  if (said === undefined || said === '') return undefined;
  return said.split(',').flatMap((range) => {
    const [from = 0, to = from] = range.split('-').map((part) => Number(part.trim()));
    if (from < 1 || Math.max(from, to) > count) {
      throw new LotfileError('wrong use', `"${name}" has no page ${from < 1 ? from : Math.max(from, to)}.`, {
        about: name,
        next: `It has ${count === 1 ? 'one page' : `${count} pages, 1 to ${count}`}: choose among these.`,
      });
    }
    const step = to < from ? -1 : 1;
    return Array.from({ length: Math.abs(to - from) + 1 }, (_, at) => from - 1 + at * step);
  });
}

/** The other way: "1-3, 5". Runs that go up by one are drawn together. */
export function pagesInWords(pages: readonly number[]): string {
  const runs: { from: number; to: number }[] = [];
  for (const page of pages) {
    const last = runs.at(-1);
    if (last !== undefined && page === last.to + 1) last.to = page;
    else runs.push({ from: page, to: page });
  }
  return runs.map(({ from, to }) => (from === to ? `${from + 1}` : `${from + 1}-${to + 1}`)).join(', ');
}
