import type { PageFacts } from '../../vocabulary/lot.ts';
import { type PageEntry, pagesOf } from '../page/page-tree.ts';
import type { ReaderDocument } from '../pdfium/open-document.ts';
import type { PagePicture } from '../pictures/picture-page.ts';
import type { RegularFile } from '../regular/regular-file.ts';
import { isList, isRef, nameOf, type Value } from '../regular/values.ts';
import { drawnPage, pictureDict } from './drawn-page.ts';
import { drawnStreams, ownResources } from './drawn-parts.ts';
import { keptForm, staysOnPage } from './kept-fields.ts';
import type { Places } from './places.ts';
import { WriteAnew } from './write-anew.ts';

/** What the rewriting is given: the kept pages, open twice over. */
export interface Rewriting {
  readonly file: RegularFile;
  readonly document: ReaderDocument;
  readonly facts: readonly PageFacts[];
  readonly places: Places;
  /** Pages that become pictures: those with places, and any that share what they draw. */
  readonly pictured: ReadonlySet<number>;
}

/** Pages that draw with the same streams as a page with places: the hidden part could be had from there. */
export function sharingPages(file: RegularFile, places: Places): ReadonlySet<number> {
  const pages = pagesOf(file);
  const hidden = new Set([...places.keys()].flatMap((index) => [...streamsOf(file, pages[index])]));
  const found = new Set(places.keys());
  for (const [index, page] of pages.entries()) {
    if ([...drawnStreams(file, page)].some((number) => hidden.has(number))) found.add(index);
  }
  return found;
}

function streamsOf(file: RegularFile, page: PageEntry | undefined): ReadonlySet<number> {
  return page === undefined ? new Set() : drawnStreams(file, page);
}

function annotationsOf(file: RegularFile, page: PageEntry): readonly Value[] {
  const list = file.resolve(page.dict.get('Annots'));
  return isList(list) ? list.filter((item) => staysOnPage(file, item)) : [];
}

const boxes = ['MediaBox', 'CropBox', 'Rotate'] as const;

/** A page that stays, with what it draws and nothing else. */
function stayingPage(fresh: WriteAnew, file: RegularFile, page: PageEntry): Value {
  const entries: (readonly [string, Value])[] = [['Type', { name: 'Page' }]];
  const carry = (key: string, value: Value | undefined) => {
    if (value !== undefined && value !== null) entries.push([key, fresh.carried(value)]);
  };
  const annotations = annotationsOf(file, page);
  if (annotations.length > 0) carry('Annots', annotations);
  for (const key of boxes) carry(key, page.inherited.get(key));
  for (const key of ['Contents', 'Group', 'UserUnit'] as const) carry(key, page.dict.get(key));
  carry('Resources', ownResources(file, page));
  return new Map<string, Value>([...entries, ['Parent', { ref: 2 }]]);
}

/** Only links within the file and to the web live on; everything else that acts is dropped. */
function tamedAnnotation(file: RegularFile, annotation: Value): Value | undefined {
  const dict = file.dict(annotation);
  const action = file.dict(dict.get('A'));
  if (action.size === 0) return undefined;
  const sort = nameOf(file.resolve(action.get('S'))) ?? '';
  const tame = new Map(dict);
  if (sort === 'GoTo' || sort === 'URI') tame.set('A', new Map([...action].filter(([key]) => key !== 'Next')));
  else tame.delete('A');
  return tame;
}

interface Chosen {
  readonly annotations: readonly Value[];
  readonly widgets: ReadonlySet<number>;
}

function chosenOf({ file, pictured }: Rewriting): Chosen {
  const annotations = pagesOf(file).flatMap((page, index) => (pictured.has(index) ? [] : annotationsOf(file, page)));
  return { annotations, widgets: new Set(annotations.flatMap((item) => (isRef(item) ? [item.ref] : []))) };
}

function picturePage(fresh: WriteAnew, at: { readonly facts: PageFacts; picture(): Promise<PagePicture> }): Value {
  const { width, height } = at.facts;
  const image = fresh.add(async () => {
    const picture = await at.picture();
    return { value: pictureDict(picture), data: picture.data };
  });
  const size = [width, height]
    .map((side) => Number(side.toFixed(5)))
    .join(' ')
    .split(' ');
  const content = fresh.add(() => ({
    value: new Map(),
    data: Buffer.from(`q\n${size[0]} 0 0 ${size[1]} 0 0 cm\n/Im0 Do\nQ\n`),
  }));
  return new Map<string, Value>([
    ['Contents', { ref: content }],
    ['MediaBox', [0, 0, Number(size[0]), Number(size[1])]],
    ['Parent', { ref: 2 }],
    ['Resources', new Map([['XObject', new Map([['Im0', { ref: image }]])]])],
    ['Type', { name: 'Page' }],
  ]);
}

/**
 * Writes the pages into a file of its own: those with places as pictures of themselves with the places painted over,
 * the others with what they draw. Attachments, outlines, names, metadata, hidden notes, fields of redrawn pages and
 * their values stay behind, whatever they hold.
 */
export async function rewrite(given: Rewriting, path: string, id: string): Promise<void> {
  const { file, document, facts, places, pictured } = given;
  const fresh = new WriteAnew(file);
  const pages = pagesOf(file);
  const { annotations, widgets } = chosenOf(given);
  const { gone, changed, form } = keptForm(file, widgets);
  for (const number of gone) fresh.gone.add(number);
  for (const [number, value] of changed) fresh.changed.set(number, value);
  for (const item of annotations) {
    const tame = tamedAnnotation(file, item);
    if (tame !== undefined && isRef(item)) fresh.changed.set(item.ref, tame);
  }
  const catalog = file.dict(file.trailer.get('Root'));
  fresh.add(() => {
    const entries: (readonly [string, Value])[] = [
      ['Pages', { ref: 2 }],
      ['Type', { name: 'Catalog' }],
    ];
    if (form !== undefined) entries.push(['AcroForm', fresh.carried(form)]);
    const layers = catalog.get('OCProperties');
    if (layers !== undefined && pictured.size < pages.length) entries.push(['OCProperties', fresh.carried(layers)]);
    return { value: new Map(entries) };
  });
  const numbers = pages.map((_, index) => 3 + index);
  fresh.add(() => ({
    value: new Map<string, Value>([
      ['Count', pages.length],
      ['Kids', numbers.map((ref) => ({ ref }))],
      ['Type', { name: 'Pages' }],
    ]),
  }));
  for (const [index, page] of pages.entries()) {
    const own = facts[index];
    if (own === undefined) throw new Error(`Page ${index + 1} was not measured.`);
    const picture = () => drawnPage(document, own, places.get(index) ?? []);
    fresh.add(() => ({
      value: pictured.has(index) ? picturePage(fresh, { facts: own, picture }) : stayingPage(fresh, file, page),
    }));
    fresh.standsFor(page.object, 3 + index);
  }
  await fresh.write(path, id);
}
