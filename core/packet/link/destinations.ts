import type { LinkNotes, NoteSort } from './link-notes.ts';
import type { PageUse, SourceCopy } from './source-copy.ts';
import { stringBytes } from './syntax/text-string.ts';
import {
  dict,
  FinishedRef,
  isArray,
  isDict,
  name,
  nameOf,
  type PdfArray,
  type PdfDict,
  PdfName,
  PdfRef,
  PdfString,
  type PdfValue,
} from './syntax/values.ts';

const deepest = 64;
const actionNotes: Readonly<Record<string, NoteSort>> = {
  JavaScript: 'script',
  Rendition: 'media',
  Movie: 'media',
  Sound: 'media',
  RichMediaExecute: 'media',
};

/** Turns a source's destinations, named or not, into places in the finished file. */
export class Destinations {
  readonly #source: SourceCopy;
  readonly #notes: LinkNotes;
  #named: Map<string, PdfValue> | undefined;

  constructor(source: SourceCopy, notes: LinkNotes) {
    this.#source = source;
    this.#notes = notes;
  }

  /** An explicit destination in the finished file, or undefined when its page is left out or never existed. */
  place(value: PdfValue | undefined, from: PageUse): PdfArray | undefined {
    const explicit = this.#explicit(value, 0);
    if (explicit === undefined) return undefined;
    const first = explicit[0];
    const page = first instanceof PdfRef ? this.#source.pageIndexOf(first) : first;
    if (typeof page !== 'number') return undefined;
    const use = this.#source.sheetOf(page, from.turn);
    if (use === undefined) return undefined;
    const how = explicit.slice(1).map((part) => this.#source.file.resolve(part));
    return [new FinishedRef(use.num), ...(how[0] instanceof PdfName ? how : [name('Fit')])];
  }

  /** The action as it may live on: going to a page of this packet, or a web or mail address. Else undefined, and counted. */
  action(value: PdfValue | undefined, from: PageUse): PdfDict | undefined {
    const action = this.#source.dictOf(value);
    const title = this.#source.file.title;
    const sort = nameOf(this.#source.file.resolve(action?.get('S')));
    if (action === undefined || sort === undefined) return undefined;
    if (sort === 'GoTo') {
      const place = this.place(action.get('D'), from);
      if (place === undefined) this.#notes.count(title, 'link left out');
      return place === undefined ? undefined : dict({ S: name('GoTo'), D: place });
    }
    if (sort === 'URI') {
      const address = this.#source.file.resolve(action.get('URI'));
      if (address instanceof PdfString && isOpenAddress(stringBytes(address)))
        return dict({ S: name('URI'), URI: address });
    }
    this.#notes.count(title, actionNotes[sort] ?? 'action');
    return undefined;
  }

  #explicit(value: PdfValue | undefined, depth: number): PdfArray | undefined {
    if (depth > 4) return undefined;
    const found = this.#source.file.resolve(value);
    if (isArray(found)) return found;
    if (isDict(found)) return this.#explicit(found.get('D'), depth + 1);
    if (found instanceof PdfName) return this.#explicit(this.#names().get(found.name), depth + 1);
    if (found instanceof PdfString) return this.#explicit(this.#names().get(stringBytes(found)), depth + 1);
    return undefined;
  }

  /** Both homes of names: the old /Dests dictionary and the name tree (ISO 32000-1, 12.3.2.3). */
  #names(): Map<string, PdfValue> {
    if (this.#named !== undefined) return this.#named;
    const named = new Map<string, PdfValue>(this.#source.dictOf(this.#source.catalog.get('Dests')) ?? []);
    const tree = this.#source.dictOf(this.#source.catalog.get('Names'))?.get('Dests');
    this.#readTree(tree, named, 0);
    this.#named = named;
    return named;
  }

  #readTree(value: PdfValue | undefined, into: Map<string, PdfValue>, depth: number): void {
    const node = this.#source.dictOf(value);
    if (node === undefined || depth > deepest) return;
    const names = this.#source.file.resolve(node.get('Names'));
    if (isArray(names)) {
      for (let i = 0; i + 1 < names.length; i += 2) {
        const key = this.#source.file.resolve(names[i]);
        const to = names[i + 1];
        if (key instanceof PdfString && to !== undefined && !into.has(stringBytes(key))) into.set(stringBytes(key), to);
      }
    }
    const kids = this.#source.file.resolve(node.get('Kids'));
    for (const kid of isArray(kids) ? kids : []) this.#readTree(kid, into, depth + 1);
  }
}

/** Addresses a reader opens in a browser or mail program; nothing that runs or reaches into the disk. */
function isOpenAddress(address: string): boolean {
  const scheme = /^\s*([a-z][a-z0-9+.-]*):/i.exec(address)?.[1]?.toLowerCase();
  return scheme === undefined || ['http', 'https', 'mailto', 'tel', 'ftp', 'ftps', 'sms', 'geo'].includes(scheme);
}
