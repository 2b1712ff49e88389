import type { SourceCopy } from './source-copy.ts';
import { nameText, serialise } from './syntax/serialise.ts';
import { byteString, stringBytes } from './syntax/text-string.ts';
import { FinishedRef, type PdfDict, PdfRef, PdfString, type PdfValue } from './syntax/values.ts';

/** The default resources of all carried forms in one dictionary; fonts of the same name that differ get a new one. */
export class DefaultFonts {
  readonly #fonts = new Map<string, PdfValue>();
  /** What a name's font looks like, to tell "the same Helvetica again" from a clash. */
  readonly #looks = new Map<string, string>();
  readonly #encodings = new Map<string, PdfValue>();
  readonly #renames = new Map<SourceCopy, Map<string, string>>();

  /** Takes a form's /DR in. */
  unite(source: SourceCopy, resources: PdfValue | undefined): void {
    if (this.#renames.has(source)) return;
    const renames = new Map<string, string>();
    this.#renames.set(source, renames);
    const from = source.dictOf(resources);
    for (const [name, font] of source.dictOf(from?.get('Font')) ?? []) {
      const look = lookOf(source, font);
      const here = this.#nameFor(name, look);
      if (here !== name) renames.set(name, here);
      if (this.#fonts.has(here)) continue;
      this.#looks.set(here, look);
      this.#fonts.set(here, placed(source, font));
    }
    for (const [name, encoding] of source.dictOf(from?.get('Encoding')) ?? []) {
      if (!this.#encodings.has(name)) this.#encodings.set(name, placed(source, encoding));
    }
  }

  /** The default-appearance string with renamed fonts; undefined when nothing changes. */
  renamed(source: SourceCopy, value: PdfValue | undefined): PdfString | undefined {
    const renames = this.#renames.get(source);
    const found = source.file.resolve(value);
    if (renames === undefined || renames.size === 0 || !(found instanceof PdfString)) return undefined;
    const before = stringBytes(found);
    const after = before.replace(/\/([^\s()<>[\]{}/%]+)/g, (whole, name: string) => {
      const to = renames.get(name);
      return to === undefined ? whole : nameText(to);
    });
    return after === before ? undefined : byteString(after);
  }

  /** The united /DR. */
  resources(): PdfDict {
    const made = new Map<string, PdfValue>([['Font', this.#fonts]]);
    if (this.#encodings.size > 0) made.set('Encoding', this.#encodings);
    return made;
  }

  #nameFor(name: string, look: string): string {
    for (let n = 1; ; n += 1) {
      const tried = n === 1 ? name : `${name}-${n}`;
      const known = this.#looks.get(tried);
      if (known === undefined || known === look) return tried;
    }
  }
}

/** Fonts written out in the same words are the same; words that point into a source belong to that source alone. */
function lookOf(source: SourceCopy, font: PdfValue): string {
  let points = false;
  const text = serialise(source.file.resolve(font), (ref) => {
    points = true;
    return ref.num;
  });
  return points ? `${source.place} ${text}` : text;
}

function placed(source: SourceCopy, value: PdfValue): PdfValue {
  if (!(value instanceof PdfRef)) return source.out.add(value, source.mapRef);
  const num = source.mapRef(value);
  return num === 0 ? null : new FinishedRef(num);
}
