import type { RegularFile } from '../regular/regular-file.ts';
import { type Dict, isDict, isList, isRef, nameOf, type Value } from '../regular/values.ts';

/** A page with what it inherits laid in (ISO 32000-1, 7.7.3.4). */
export interface PageEntry {
  /** Object number of the page dictionary. */
  readonly object: number;
  readonly dict: Dict;
  readonly inherited: Dict;
}

/** More than any paper has; a tree built to explode stops here (and then fails the comparison of page counts). */
const mostPages = 50_000;

const inheritable = ['Resources', 'MediaBox', 'CropBox', 'Rotate'] as const;

function passedOn(dict: Dict, above: Dict): Dict {
  const own = new Map(above);
  for (const key of inheritable) {
    const value = dict.get(key);
    if (value !== undefined && value !== null) own.set(key, value);
  }
  return own;
}

/** All pages in reading order. A tree that bites its own tail is cut there. */
export function pagesOf(file: RegularFile): readonly PageEntry[] {
  const pages: PageEntry[] = [];
  const path = new Set<number>();
  const walk = (at: Value, above: Dict) => {
    if (!isRef(at) || path.has(at.ref) || pages.length > mostPages) return;
    const dict = file.resolve(at);
    if (!isDict(dict)) return;
    const inherited = passedOn(dict, above);
    const kids = file.resolve(dict.get('Kids'));
    if (isList(kids) && nameOf(file.resolve(dict.get('Type'))) !== 'Page') {
      path.add(at.ref);
      for (const kid of kids) walk(kid, inherited);
      path.delete(at.ref);
    } else {
      pages.push({ object: at.ref, dict, inherited });
    }
  };
  walk(file.dict(file.trailer.get('Root')).get('Pages') ?? null, new Map());
  return pages;
}
