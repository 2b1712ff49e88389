import { drawFieldLook } from './field-look.ts';
import type { DefaultFonts } from './form-fonts.ts';
import type { LinkNotes } from './link-notes.ts';
import type { PageUse, SourceCopy } from './source-copy.ts';
import { textString } from './syntax/text-string.ts';
import { dict, FinishedRef, isArray, nameOf, type PdfDict, PdfRef, type PdfValue, without } from './syntax/values.ts';

const deepest = 64;
/** Keys of a field that are written anew or may not live on (scripts, tagging). */
const rewritten = new Set(['Kids', 'Parent', 'AA', 'A', 'StructParent', 'P']);

/** What a widget takes from the fields above it (ISO 32000-1, 12.7.3.1 and 12.7.4). */
const inheritable = ['T', 'FT', 'Ff', 'V', 'DV', 'DA', 'Q', 'Opt', 'MaxLen'] as const;

/** A field above widgets on used pages. */
interface FieldNode {
  readonly num: number;
  readonly entries: PdfDict;
  readonly parent: FieldNode | FieldRoot;
  readonly kids: Map<number, number>;
}

/** The field every field of this source is hung under, one per round of use: full names become "t3.name". */
interface FieldRoot {
  readonly num: number;
  readonly turn: number;
  readonly kids: number[];
  readonly nodes: Map<number, FieldNode>;
}

/**
 * Carries the fields whose widgets stand on used pages. Names can't clash because each source gets a parent field of
 * its own; what the old form dictionary gave all its fields (/DA, /Q) stands on that parent and is inherited.
 */
export class FormCarry {
  readonly #source: SourceCopy;
  readonly #notes: LinkNotes;
  readonly #fonts: DefaultFonts;
  readonly #form: PdfDict | undefined;
  readonly #roots = new Map<number, FieldRoot>();

  constructor(source: SourceCopy, fonts: DefaultFonts, notes: LinkNotes) {
    this.#source = source;
    this.#notes = notes;
    this.#fonts = fonts;
    this.#form = source.dictOf(source.catalog.get('AcroForm'));
  }

  /** True for a widget of a signature field: such fields are never carried, a packet is not the signed file. */
  isSignature(widget: PdfDict): boolean {
    return nameOf(this.#inherited(widget, 'FT')) === 'Sig';
  }

  /** The widget as it stands in the finished file, hung under its carried field. */
  widget(
    entries: PdfDict,
    made: Map<string, PdfValue>,
    at: { readonly use: PageUse; readonly num: number; readonly old: number | undefined },
  ): PdfDict {
    if (this.#form === undefined) return this.#onItsOwn(entries, made);
    this.#giveLook(entries, made);
    const root = this.#root(at.use.turn);
    const above = entries.get('Parent');
    const parent = above instanceof PdfRef ? this.#node(above, root, 0) : undefined;
    if (parent === undefined) root.kids.push(at.num);
    else if (at.old !== undefined) parent.kids.set(at.old, at.num);
    made.set('Parent', new FinishedRef((parent ?? root).num));
    return this.renameFonts(made);
  }

  /** A field of a file without a form is drawn by what stands above it, which is not carried: laid into the widget. */
  #onItsOwn(entries: PdfDict, made: Map<string, PdfValue>): PdfDict {
    for (const key of inheritable) {
      const value = made.has(key) ? undefined : this.#inherited(entries, key);
      if (value !== undefined) made.set(key, value);
    }
    return made;
  }

  /** Default-appearance strings name fonts of the form dictionary, which may have been renamed. */
  renameFonts(entries: Map<string, PdfValue>): PdfDict {
    const da = this.#fonts.renamed(this.#source, entries.get('DA'));
    if (da !== undefined) entries.set('DA', da);
    return entries;
  }

  /** Writes the fields above the carried widgets. Returns the top fields, for the finished form dictionary. */
  finish(): readonly FinishedRef[] {
    const tops: FinishedRef[] = [];
    for (const root of [...this.#roots.values()].sort((a, b) => a.turn - b.turn)) {
      for (const node of root.nodes.values()) this.#writeNode(node);
      const title = root.turn === 0 ? `t${this.#source.place}` : `t${this.#source.place}-${root.turn + 1}`;
      const da = this.#form?.get('DA');
      const entries = dict({
        T: textString(title),
        Kids: root.kids.map((num) => new FinishedRef(num)),
        DA: this.#fonts.renamed(this.#source, da) ?? da,
        Q: this.#form?.get('Q'),
      });
      this.#source.out.write(root.num, entries, this.#source.mapRef);
      tops.push(new FinishedRef(root.num));
    }
    return tops;
  }

  /** A form that leaves the look of its fields to the reader gets it here: the packet can't ask that of its reader. */
  #giveLook(entries: PdfDict, made: Map<string, PdfValue>): void {
    const { file } = this.#source;
    if (file.resolve(this.#form?.get('NeedAppearances')) !== true) return;
    const sort = nameOf(this.#inherited(entries, 'FT'));
    const hasLook = this.#source.dictOf(this.#source.dictOf(entries.get('AP'))?.get('N')) !== undefined;
    const look =
      sort === 'Tx' || sort === 'Ch'
        ? drawFieldLook(entries, {
            source: this.#source,
            resources: this.#source.dictOf(this.#form?.get('DR')),
            appearance: this.#form?.get('DA'),
            inherited: (key) => this.#inherited(entries, key),
          })
        : undefined;
    if (look !== undefined) {
      made.set('AP', dict({ N: look }));
      this.#notes.count(file.title, 'form look');
    } else if (!hasLook && this.#inherited(entries, 'V') !== undefined) this.#notes.count(file.title, 'no look');
  }

  #root(turn: number): FieldRoot {
    const known = this.#roots.get(turn);
    if (known !== undefined) return known;
    this.#fonts.unite(this.#source, this.#form?.get('DR'));
    const root = { num: this.#source.out.reserve(), turn, kids: [], nodes: new Map<number, FieldNode>() };
    this.#roots.set(turn, root);
    return root;
  }

  #node(ref: PdfRef, root: FieldRoot, depth: number): FieldNode | undefined {
    const known = root.nodes.get(ref.num);
    if (known !== undefined) return known;
    const entries = this.#source.dictOf(ref);
    if (entries === undefined || depth > deepest) return undefined;
    const above = entries.get('Parent');
    const parent = above instanceof PdfRef ? (this.#node(above, root, depth + 1) ?? root) : root;
    const again = root.nodes.get(ref.num);
    if (again !== undefined) return again;
    const node = { num: this.#source.out.reserve(), entries, parent, kids: new Map<number, number>() };
    root.nodes.set(ref.num, node);
    if ('turn' in parent) parent.kids.push(node.num);
    else parent.kids.set(ref.num, node.num);
    return node;
  }

  /** Kids keep the order they had: button states may be told apart by it. */
  #writeNode(node: FieldNode): void {
    const listed = this.#source.file.resolve(node.entries.get('Kids'));
    const order = isArray(listed) ? listed.flatMap((kid) => (kid instanceof PdfRef ? [kid.num] : [])) : [];
    const kids = [...new Set([...order, ...node.kids.keys()])].flatMap((old) => node.kids.get(old) ?? []);
    const made = without(node.entries, rewritten);
    made.set('Parent', new FinishedRef(node.parent.num));
    made.set(
      'Kids',
      kids.map((num) => new FinishedRef(num)),
    );
    this.#source.out.write(node.num, this.renameFonts(made), this.#source.mapRef);
  }

  #inherited(entries: PdfDict, key: string): PdfValue | undefined {
    let here: PdfDict | undefined = entries;
    for (let depth = 0; here !== undefined && depth < deepest; depth += 1) {
      const value = this.#source.file.resolve(here.get(key));
      if (value !== null) return value;
      here = this.#source.dictOf(here.get('Parent'));
    }
    return undefined;
  }
}
