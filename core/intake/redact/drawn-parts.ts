import { pageContent } from '../page/page-content.ts';
import type { PageEntry } from '../page/page-tree.ts';
import type { RegularFile } from '../regular/regular-file.ts';
import { type Dict, isDict, isList, isRef, nameOf, type Value } from '../regular/values.ts';

/** Ways out of a page's own drawing: to its form, to other pages, to reading aids. */
const outward = new Set(['Parent', 'P', 'Dest', 'A', 'AA', 'Popup', 'IRT', 'B', 'StructParent', 'StructParents']);
/** What several pages may share without showing anything of each other. */
const shareable = new Set(['Font', 'ColorSpace', 'ExtGState', 'Metadata', 'OC', 'Properties']);

function unescaped(name: string): string {
  return name.replace(/#([\da-f]{2})/gi, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)));
}

/** Names that follow a slash and precede `Do` in a page's content; undefined where it can't be unpacked. */
function drawnNames(file: RegularFile, page: PageEntry): ReadonlySet<string> | undefined {
  try {
    const text = Buffer.from(pageContent(file, page)).toString('latin1');
    return new Set([...text.matchAll(/\/([^\s/<>[\](){}%]+)\s+Do\b/g)].map(([, name = '']) => unescaped(name)));
  } catch {
    return undefined;
  }
}

/** A form without resources of its own draws with those of the page. */
function borrows(file: RegularFile, parts: Dict): boolean {
  return [...parts.values()].some((part) => {
    const dict = file.dict(part);
    return nameOf(file.resolve(dict.get('Subtype'))) === 'Form' && !dict.has('Resources');
  });
}

/** The page's resources without the pictures and forms that only other pages draw. */
export function ownResources(file: RegularFile, page: PageEntry): Dict {
  const resources = file.dict(page.inherited.get('Resources'));
  const parts = file.dict(resources.get('XObject'));
  const names = drawnNames(file, page);
  if (names === undefined || parts.size === 0 || borrows(file, parts)) return resources;
  return new Map(resources).set('XObject', new Map([...parts].filter(([name]) => names.has(name))));
}

/** Numbers of all streams that a page draws: content, pictures, forms, patterns, looks of annotations. */
export function drawnStreams(file: RegularFile, page: PageEntry): ReadonlySet<number> {
  const streams = new Set<number>();
  const seen = new Set<number>();
  const visit = (value: Value | undefined): void => {
    if (isRef(value)) {
      if (seen.has(value.ref)) return;
      seen.add(value.ref);
      const entry = file.entry(value.ref);
      if (entry.data !== undefined) streams.add(value.ref);
      if (isDict(entry.value) && ['Page', 'Pages', 'Catalog'].includes(nameOf(entry.value.get('Type')) ?? '')) return;
      visit(entry.value);
    } else if (isList(value)) for (const item of value) visit(item);
    else if (isDict(value)) {
      for (const [key, item] of value) if (!outward.has(key) && !shareable.has(key)) visit(item);
    }
  };
  for (const key of ['Contents', 'Annots']) visit(page.dict.get(key));
  visit(ownResources(file, page));
  return streams;
}
