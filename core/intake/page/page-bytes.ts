import type { RegularFile } from '../regular/regular-file.ts';
import { isDict, nameOf, refsIn, type Value } from '../regular/values.ts';
import type { PageEntry } from './page-tree.ts';

/** What a page draws with; its other keys lead to other pages. */
const drawnWith = ['Contents', 'Resources', 'Annots'] as const;
const backward = new Set(['Parent', 'P', 'Dest', 'A', 'AA', 'Popup', 'IRT', 'B', 'StructParent']);
const elsewhere = new Set(['Page', 'Pages', 'Catalog']);

function forwardRefs(file: RegularFile, number: number): readonly number[] {
  const { value } = file.entry(number);
  if (!isDict(value)) return refsIn(value);
  if (elsewhere.has(nameOf(value.get('Type')) ?? '')) return [];
  return [...value].flatMap(([key, item]) => (backward.has(key) ? [] : refsIn(item)));
}

function reachable(start: readonly Value[], refsOf: (number: number) => readonly number[]): ReadonlySet<number> {
  const seen = new Set<number>();
  const waiting = start.flatMap((value) => refsIn(value));
  for (let number = waiting.pop(); number !== undefined; number = waiting.pop()) {
    if (seen.has(number)) continue;
    seen.add(number);
    waiting.push(...refsOf(number));
  }
  return seen;
}

/**
 * Bytes of the file that each page accounts for: its content, pictures, fonts and annotations; what several pages
 * use is split evenly between them. An estimate for dividing a packet into volumes.
 */
export function pageBytes(file: RegularFile, pages: readonly PageEntry[]): readonly number[] {
  const known = new Map<number, readonly number[]>();
  const refsOf = (number: number) => {
    const refs = known.get(number) ?? forwardRefs(file, number);
    known.set(number, refs);
    return refs;
  };
  const users = new Map<number, number>();
  const used = pages.map((page) => {
    const start = drawnWith.map((key) => page.dict.get(key) ?? page.inherited.get(key) ?? null);
    const numbers = reachable(start, refsOf);
    for (const number of numbers) users.set(number, (users.get(number) ?? 0) + 1);
    return numbers;
  });
  return used.map((numbers, index) => {
    let bytes = file.bytesOf(pages[index]?.object ?? 0);
    for (const number of numbers) bytes += file.bytesOf(number) / (users.get(number) ?? 1);
    return Math.round(bytes);
  });
}
