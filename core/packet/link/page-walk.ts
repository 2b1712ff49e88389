import { damaged } from './syntax/damage.ts';
import type { PdfFile } from './syntax/pdf-file.ts';
import { emptyDict, isArray, isDict, nameOf, type PdfDict, PdfRef, type PdfValue } from './syntax/values.ts';

/** A page as the source has it: its own dictionary with what it inherits laid under. */
export interface SourcePage {
  readonly num: number;
  /** Kept, because linking and reading back come to it again and again. */
  readonly own: PdfDict;
  /** Resources, MediaBox, CropBox and Rotate from above (ISO 32000-1, 7.7.3.4); the page's own win. */
  readonly inherited: PdfDict;
}

export interface SourcePages {
  readonly pages: readonly SourcePage[];
  /** Object numbers of the tree's inner nodes: never copied. */
  readonly nodes: ReadonlySet<number>;
}

const inheritable = ['Resources', 'MediaBox', 'CropBox', 'Rotate'] as const;

interface Walk {
  readonly file: PdfFile;
  readonly pages: SourcePage[];
  readonly nodes: Set<number>;
}

/** Lists a source's pages in reading order. @throws LotfileError `paper damaged` when the tree is broken. */
export function walkPages(file: PdfFile): SourcePages {
  const catalog = file.dictOf(file.table.trailer.get('Root'));
  const root = catalog?.get('Pages');
  if (!(root instanceof PdfRef)) throw damaged(file.title, 'it has no list of pages');
  const walk: Walk = { file, pages: [], nodes: new Set() };
  visit(walk, root, emptyDict);
  return walk;
}

function visit(walk: Walk, ref: PdfRef, above: PdfDict): void {
  const node = walk.file.object(ref).value;
  if (!isDict(node)) throw damaged(walk.file.title, 'a page in its list is missing');
  const kids = walk.file.resolve(node.get('Kids'));
  if (nameOf(node.get('Type')) !== 'Pages' && !isArray(kids)) {
    walk.pages.push({ num: ref.num, own: node, inherited: above });
    return;
  }
  // A page may be listed twice, a node of the tree may not: that would be a circle.
  if (walk.nodes.has(ref.num)) throw damaged(walk.file.title, 'its list of pages leads round in a circle');
  walk.nodes.add(ref.num);
  const below = handDown(node, above);
  for (const kid of isArray(kids) ? kids : []) {
    if (!(kid instanceof PdfRef)) throw damaged(walk.file.title, 'its list of pages is broken');
    visit(walk, kid, below);
  }
}

function handDown(node: PdfDict, above: PdfDict): PdfDict {
  let below: Map<string, PdfValue> | undefined;
  for (const key of inheritable) {
    const value = node.get(key);
    if (value === undefined || value === null) continue;
    below ??= new Map(above);
    below.set(key, value);
  }
  return below ?? above;
}
