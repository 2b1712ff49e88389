import { decodeContent } from '../regular/decode.ts';
import type { RegularFile } from '../regular/regular-file.ts';
import { isDict, isList, isRef, type Value } from '../regular/values.ts';
import { balanceOf, type ContentBalance } from './content-balance.ts';
import type { PageEntry } from './page-tree.ts';

/** Object numbers of a page's content streams, in order. */
export function contentStreams(file: RegularFile, page: PageEntry): readonly number[] {
  const found: number[] = [];
  const add = (value: Value | undefined, depth: number) => {
    if (value === undefined || depth > 8) return;
    if (isRef(value) && file.entry(value.ref).data !== undefined) {
      found.push(value.ref);
      return;
    }
    const list = file.resolve(value);
    if (isList(list)) for (const item of list) add(item, depth + 1);
  };
  add(page.dict.get('Contents'), 0);
  return found;
}

/**
 * The unpacked content of a page, its streams joined by a line break (ISO 32000-1, 7.8.2).
 * @throws Error where a stream can't be unpacked.
 */
export function pageContent(file: RegularFile, page: PageEntry): Uint8Array {
  const parts = contentStreams(file, page).flatMap((number) => {
    const dict = file.entry(number).value;
    const raw = file.streamBytes(number);
    if (!isDict(dict) || raw === undefined) return [];
    return [decodeContent(dict, raw, (value) => file.resolve(value)), Buffer.from('\n')];
  });
  return Buffer.concat(parts);
}

/** What the page's content leaves open; undefined where it can't be unpacked (then nothing may be stamped on it). */
export function pageBalance(file: RegularFile, page: PageEntry): ContentBalance | undefined {
  try {
    return balanceOf(pageContent(file, page));
  } catch {
    return undefined;
  }
}
