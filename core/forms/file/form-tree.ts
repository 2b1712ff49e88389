import {
  PDFArray,
  PDFBool,
  PDFDict,
  type PDFDocument,
  PDFHexString,
  PDFName,
  PDFNumber,
  type PDFObject,
  PDFRef,
  PDFString,
} from 'pdf-lib';

/** A tree deeper or larger than any office's form: it was built to explode. */
const deepest = 32;
const mostFields = 20_000;

/** A widget where it stands: its dictionary, its page (0-based) and its number among the field's kids. */
export interface Widget {
  readonly dict: PDFDict;
  readonly page: number;
  readonly kid: number;
}

/** A terminal field with what it inherits, and its widgets on pages (ISO 32000-1, 12.7.3.1). */
export interface FieldNode {
  readonly name: string;
  readonly dict: PDFDict;
  readonly widgets: readonly Widget[];
  /** A key of the field, or of a field above it. */
  readonly inherited: (key: string) => PDFObject | undefined;
}

export interface FormTree {
  readonly form: PDFDict | undefined;
  readonly fields: readonly FieldNode[];
  /** Top fields that stand on a page and in no list of fields. */
  readonly stray: readonly PDFRef[];
}

export function textOf(value: PDFObject | undefined): string | undefined {
  if (value instanceof PDFString || value instanceof PDFHexString) return value.decodeText();
  return value instanceof PDFName ? value.decodeText() : undefined;
}

export function numberOf(value: PDFObject | undefined): number | undefined {
  return value instanceof PDFNumber ? value.asNumber() : undefined;
}

export function isTrue(value: PDFObject | undefined): boolean {
  return value === PDFBool.True;
}

export function dictAt(dict: PDFDict | undefined, key: string): PDFDict | undefined {
  const found = dict?.lookup(PDFName.of(key));
  return found instanceof PDFDict ? found : undefined;
}

export function arrayAt(dict: PDFDict | undefined, key: string): PDFArray | undefined {
  const found = dict?.lookup(PDFName.of(key));
  return found instanceof PDFArray ? found : undefined;
}

function dictsIn(list: PDFArray | undefined): readonly PDFDict[] {
  if (list === undefined) return [];
  return Array.from({ length: list.size() }, (_, n) => list.lookup(n)).filter((item) => item instanceof PDFDict);
}

/** The chain of fields from this one up. */
function chainOf(dict: PDFDict): readonly PDFDict[] {
  const chain: PDFDict[] = [];
  let here: PDFDict | undefined = dict;
  while (here !== undefined && !chain.includes(here) && chain.length < deepest) {
    chain.push(here);
    here = dictAt(here, 'Parent');
  }
  return chain;
}

function nameOf(chain: readonly PDFDict[]): string {
  const parts = chain.flatMap((dict) => textOf(dict.lookup(PDFName.of('T'))) ?? []);
  return parts.toReversed().join('.');
}

/** Widgets by their dictionary, each with its page. */
function widgetsOnPages(document: PDFDocument): ReadonlyMap<PDFDict, number> {
  const found = new Map<PDFDict, number>();
  for (const [index, page] of document.getPages().entries()) {
    for (const annotation of dictsIn(page.node.Annots())) {
      if (annotation.lookup(PDFName.of('Subtype')) === PDFName.of('Widget') && !found.has(annotation))
        found.set(annotation, index);
    }
  }
  return found;
}

class TreeReader {
  readonly #pages: ReadonlyMap<PDFDict, number>;
  readonly #seen = new Set<PDFDict>();
  readonly fields: FieldNode[] = [];

  constructor(pages: ReadonlyMap<PDFDict, number>) {
    this.#pages = pages;
  }

  has(dict: PDFDict): boolean {
    return this.#seen.has(dict);
  }

  walk(dict: PDFDict, above: readonly PDFDict[]): void {
    if (this.#seen.has(dict) || above.length > deepest || this.#seen.size > mostFields) return;
    this.#seen.add(dict);
    const chain = [dict, ...above];
    const kids = dictsIn(arrayAt(dict, 'Kids'));
    const named = kids.filter((kid) => kid.has(PDFName.of('T')));
    for (const kid of named) this.walk(kid, chain);
    const widgets = kids.filter((kid) => !kid.has(PDFName.of('T')));
    if (named.length > 0 && widgets.length === 0) return;
    for (const widget of widgets) this.#seen.add(widget);
    this.#addField(dict, chain, widgets.length === 0 ? [dict] : widgets);
  }

  #addField(dict: PDFDict, chain: readonly PDFDict[], widgets: readonly PDFDict[]): void {
    const placed = widgets.flatMap((widget, kid): readonly Widget[] => {
      const page = this.#pages.get(widget);
      return page === undefined ? [] : [{ dict: widget, page, kid }];
    });
    const inherited = (key: string): PDFObject | undefined => {
      for (const one of chain) {
        const value = one.lookup(PDFName.of(key));
        if (value !== undefined) return value;
      }
      return undefined;
    };
    this.fields.push({ name: nameOf(chain), dict, widgets: placed, inherited });
  }
}

/**
 * Every field of a form: down the tree of fields, and from pages whose widgets no list names. Kids without a name of
 * their own are places of the field above them; several dictionaries of one full name are told apart here and are one
 * field to whoever fills it (ISO 32000-1, 12.7.3.2).
 */
export function formTree(document: PDFDocument): FormTree {
  const form = dictAt(document.catalog, 'AcroForm');
  const pages = widgetsOnPages(document);
  const reader = new TreeReader(pages);
  for (const top of dictsIn(arrayAt(form, 'Fields'))) reader.walk(top, []);
  const stray: PDFRef[] = [];
  for (const widget of pages.keys()) {
    if (reader.has(widget)) continue;
    const top = chainOf(widget).at(-1);
    if (top === undefined || reader.has(top)) continue;
    const ref = document.context.getObjectRef(top);
    if (ref instanceof PDFRef) stray.push(ref);
    reader.walk(top, []);
  }
  return { form, fields: reader.fields, stray };
}
