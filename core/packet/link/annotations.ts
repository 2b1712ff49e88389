import type { Destinations } from './destinations.ts';
import type { FormCarry } from './forms.ts';
import type { LinkNotes } from './link-notes.ts';
import type { PageUse, SourceCopy } from './source-copy.ts';
import type { MapRef } from './syntax/serialise.ts';
import {
  dict,
  FinishedRef,
  isArray,
  name,
  nameOf,
  numberOf,
  type PdfDict,
  PdfRef,
  type PdfValue,
  without,
} from './syntax/values.ts';

/** Keys that are written anew or may not live on. */
const rewritten = new Set(['P', 'Parent', 'Popup', 'IRT', 'A', 'AA', 'PA', 'Dest', 'StructParent', 'AF', 'FS']);
const media: ReadonlySet<string> = new Set(['Screen', 'Movie', 'Sound', '3D', 'RichMedia']);
/** What a still picture of an annotation keeps. */
const pictureKeys = ['Rect', 'AP', 'AS', 'F', 'OC', 'Contents', 'NM'] as const;

export interface AnnotationParts {
  readonly source: SourceCopy;
  readonly destinations: Destinations;
  readonly forms: FormCarry;
  readonly notes: LinkNotes;
}

interface Kept {
  readonly num: number;
  readonly entries: PdfDict;
}

/** Carries a page's annotations over: links stay alive inside the packet, fields and comments stay whole, active parts go. */
export class AnnotationCarry {
  readonly #parts: AnnotationParts;

  constructor(parts: AnnotationParts) {
    this.#parts = parts;
  }

  /** Writes the annotations of one use of a page and returns their references. */
  carry(annots: PdfValue | undefined, use: PageUse): readonly FinishedRef[] {
    const { source } = this.#parts;
    const listed = source.file.resolve(annots);
    if (!isArray(listed)) return [];
    const kept: Kept[] = [];
    const numbers = new Map<number, number>();
    for (const entry of listed) {
      const entries = source.dictOf(entry);
      if (entries === undefined || (entry instanceof PdfRef && numbers.has(entry.num))) continue;
      const what = this.#keep(entries);
      if (what === undefined) continue;
      const num = source.out.reserve();
      if (entry instanceof PdfRef) numbers.set(entry.num, num);
      kept.push({ num, entries: what });
    }
    return this.#write(kept, numbers, use);
  }

  #write(kept: readonly Kept[], numbers: ReadonlyMap<number, number>, use: PageUse): readonly FinishedRef[] {
    const { source } = this.#parts;
    const mapRef: MapRef = (ref) => numbers.get(ref.num) ?? source.mapRef(ref);
    const written: FinishedRef[] = [];
    const back = new Map<number, number>([...numbers].map(([old, num]) => [num, old]));
    for (const { num, entries } of kept) {
      const made = this.#rewrite(entries, { use, numbers, num, old: back.get(num) });
      // A reserved number must be written even when its annotation turns out to lead nowhere.
      source.out.write(num, made ?? null, mapRef);
      if (made !== undefined) written.push(new FinishedRef(num));
    }
    return written;
  }

  /** First look: what this annotation becomes, or undefined when it goes. */
  #keep(entries: PdfDict): PdfDict | undefined {
    const { source, notes, forms } = this.#parts;
    const subtype = nameOf(source.file.resolve(entries.get('Subtype')));
    if (subtype === 'FileAttachment') {
      notes.count(source.file.title, 'attachment');
      return stillPicture(source, entries);
    }
    if (subtype !== undefined && media.has(subtype)) {
      const still = stillPicture(source, entries);
      notes.count(source.file.title, still === undefined ? 'media' : 'media picture');
      return still;
    }
    if (subtype === 'Widget' && forms.isSignature(entries)) {
      const still = stillPicture(source, entries);
      notes.count(source.file.title, still === undefined ? 'signature gone' : 'signature');
      return still;
    }
    return entries;
  }

  #rewrite(
    entries: PdfDict,
    at: {
      readonly use: PageUse;
      readonly numbers: ReadonlyMap<number, number>;
      readonly num: number;
      readonly old: number | undefined;
    },
  ): PdfDict | undefined {
    const { source, forms, destinations, notes } = this.#parts;
    const subtype = nameOf(source.file.resolve(entries.get('Subtype')));
    const made = without(entries, rewritten);
    made.set('P', new FinishedRef(at.use.num));
    if (entries.has('AA')) notes.count(source.file.title, 'action');
    for (const key of subtype === 'Popup' ? ['Parent'] : ['Popup', 'IRT']) {
      const to = entries.get(key);
      const num = to instanceof PdfRef ? at.numbers.get(to.num) : undefined;
      if (num !== undefined) made.set(key, new FinishedRef(num));
    }
    if (subtype === 'Popup' && !made.has('Parent')) return undefined;
    const action = destinations.action(entries.get('A'), at.use);
    if (action !== undefined) made.set('A', action);
    if (subtype === 'Widget') return forms.widget(entries, made, at);
    if (subtype !== 'Link') return forms.renameFonts(made);
    const dest = entries.get('Dest');
    if (dest !== undefined && dest !== null) {
      const place = destinations.place(dest, at.use);
      if (place === undefined) notes.count(source.file.title, 'link left out');
      else made.set('Dest', place);
    }
    return made.has('A') || made.has('Dest') || hasBorder(source, made) ? made : undefined;
  }
}

/** A link that leads nowhere any more still shows the frame its author gave it (ISO 32000-1, 12.5.4: 1 by default). */
function hasBorder(source: SourceCopy, link: PdfDict): boolean {
  const { file } = source;
  const style = source.dictOf(link.get('BS'));
  if (style !== undefined) return (numberOf(file.resolve(style.get('W'))) ?? 1) > 0;
  const border = file.resolve(link.get('Border'));
  return isArray(border) ? (numberOf(file.resolve(border[2])) ?? 1) > 0 : true;
}

/** An annotation reduced to its look, as a stamp annotation that does nothing. */
function stillPicture(source: SourceCopy, entries: PdfDict): PdfDict | undefined {
  if (source.dictOf(source.dictOf(entries.get('AP'))?.get('N')) === undefined) return undefined;
  const made = new Map<string, PdfValue>(dict({ Type: name('Annot'), Subtype: name('Stamp') }));
  for (const key of pictureKeys) {
    const value = entries.get(key);
    if (value !== undefined) made.set(key, value);
  }
  return made;
}
