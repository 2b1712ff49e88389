import type { RegularFile } from '../regular/regular-file.ts';
import { type Dict, isDict, isList, isRef, nameOf, type Value } from '../regular/values.ts';

/** More than any paper has; a tree built to explode stops here. */
const mostPages = 50_000;
const inheritable = ['Resources', 'MediaBox', 'CropBox', 'Rotate'] as const;

interface Leaf {
  /** Undefined for a page that stands in the list itself. */
  readonly object: number | undefined;
  readonly dict: Dict;
}

/** Lists a tree's pages and notices everything that readers see differently. */
class Walk {
  readonly leaves: Leaf[] = [];
  odd = false;
  readonly #file: RegularFile;
  readonly #path = new Set<number>();

  constructor(file: RegularFile) {
    this.#file = file;
  }

  visit(at: Value, parent: number | undefined): void {
    const dict = this.#file.resolve(at);
    const again = isRef(at) && this.#path.has(at.ref);
    if (!isDict(dict) || again || this.leaves.length > mostPages) {
      this.odd = true;
      return;
    }
    if (!isRef(at)) this.odd = true;
    if (parent !== undefined && !this.#isUnder(dict, parent)) this.odd = true;
    const kids = this.#file.resolve(dict.get('Kids'));
    if (isList(kids) && nameOf(this.#file.resolve(dict.get('Type'))) !== 'Page') this.#node(at, dict, kids);
    else this.#leaf(at, dict);
  }

  #leaf(at: Value, dict: Dict): void {
    if (cropsAll(this.#file, inherited(this.#file, dict))) this.odd = true;
    this.leaves.push({ object: isRef(at) ? at.ref : undefined, dict });
  }

  #isUnder(dict: Dict, parent: number): boolean {
    const above = dict.get('Parent');
    return isRef(above) && above.ref === parent;
  }

  #node(at: Value, dict: Dict, kids: readonly Value[]): void {
    const before = this.leaves.length;
    const number = isRef(at) ? at.ref : undefined;
    if (number !== undefined) this.#path.add(number);
    for (const kid of kids) this.visit(kid, number);
    if (number !== undefined) this.#path.delete(number);
    if (this.#file.resolve(dict.get('Count')) !== this.leaves.length - before) this.odd = true;
  }
}

/** What readers take for inherited: they ask the page for its parent, and that for its own. */
function inherited(file: RegularFile, page: Dict): Dict {
  const found = new Map<string, Value>();
  let at: Dict = page;
  for (let depth = 0; depth < 32; depth += 1) {
    for (const key of inheritable) {
      const value = at.get(key);
      if (value !== undefined && value !== null && !found.has(key)) found.set(key, value);
    }
    const above = file.resolve(at.get('Parent'));
    if (!isDict(above)) break;
    at = above;
  }
  return found;
}

function sides(file: RegularFile, value: Value | undefined): readonly [number, number, number, number] | undefined {
  const list = file.resolve(value);
  if (!isList(list)) return undefined;
  const [a, b, c, d] = list.map((item) => file.resolve(item));
  if (typeof a !== 'number' || typeof b !== 'number' || typeof c !== 'number' || typeof d !== 'number')
    return undefined;
  return [Math.min(a, c), Math.min(b, d), Math.max(a, c), Math.max(b, d)];
}

/** The crop box lies beside the sheet: some readers then show nothing, others the sheet. */
function cropsAll(file: RegularFile, boxes: Dict): boolean {
  const media = sides(file, boxes.get('MediaBox'));
  const crop = sides(file, boxes.get('CropBox'));
  if (media === undefined || crop === undefined) return false;
  const wide = Math.min(media[2], crop[2]) - Math.max(media[0], crop[0]);
  const high = Math.min(media[3], crop[3]) - Math.max(media[1], crop[1]);
  return media[2] > media[0] && media[3] > media[1] && (wide <= 0 || high <= 0);
}

/**
 * A flat list of pages for a file whose tree is odd: wrong counts, pages that are missing or stand in the list itself,
 * circles, parents that are none, sheets cropped to nothing (the crop box goes).
 * @returns the objects that change, new ones included; undefined where the tree is as it should be, or there are no pages
 */
export function straightened(file: RegularFile): ReadonlyMap<number, Value> | undefined {
  const root = file.trailer.get('Root');
  const catalog = file.dict(root);
  const top = catalog.get('Pages');
  const walk = new Walk(file);
  walk.visit(top ?? null, undefined);
  if (!walk.odd || walk.leaves.length === 0 || !isRef(root)) return undefined;
  const changed = new Map<number, Value>();
  let next = file.size;
  const take = (): number => next++;
  const list = isRef(top) ? top.ref : take();
  if (!isRef(top)) changed.set(root.ref, new Map(catalog).set('Pages', { ref: list }));
  const kids = walk.leaves.map(({ object, dict }) => {
    const number = object ?? take();
    const boxes = inherited(file, dict);
    const page = new Map<string, Value>([...dict, ...boxes]);
    if (cropsAll(file, boxes)) page.delete('CropBox');
    changed.set(number, page.set('Type', { name: 'Page' }).set('Parent', { ref: list }));
    return { ref: number };
  });
  changed.set(
    list,
    new Map<string, Value>([
      ['Type', { name: 'Pages' }],
      ['Count', kids.length],
      ['Kids', kids],
    ]),
  );
  return changed;
}
