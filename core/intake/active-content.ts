import { formFields } from './form-fields.ts';
import type { PageEntry } from './page/page-tree.ts';
import type { RegularFile } from './regular/regular-file.ts';
import { type Dict, isDict, isList, isRef, nameOf, type Value } from './regular/values.ts';

/** What a file can do besides being read, and the sentence for it. */
const sentences = {
  script: 'It carries a script; packets leave it out.',
  launch: 'It tries to start another program; packets leave that out.',
  submit: 'It can send what is filled in to an address; packets leave that out.',
  opening: 'It does something of its own when it is opened; packets leave that out.',
  attachment: 'It carries files inside itself; packets leave them out. Keep each of them as a paper of its own.',
  media: 'It carries sound, film or a model; packets leave that out.',
  elsewhere: 'It links to other files on a disk; packets leave those links out.',
} as const;

type Active = keyof typeof sentences;

const actions: Readonly<Record<string, Active>> = {
  JavaScript: 'script',
  Rendition: 'media',
  Movie: 'media',
  Sound: 'media',
  RichMediaExecute: 'media',
  GoTo3DView: 'media',
  Launch: 'launch',
  SubmitForm: 'submit',
  ImportData: 'submit',
  GoToR: 'elsewhere',
  GoToE: 'elsewhere',
};

const annotations: Readonly<Record<string, Active>> = {
  FileAttachment: 'attachment',
  RichMedia: 'media',
  Screen: 'media',
  Movie: 'media',
  Sound: 'media',
  '3D': 'media',
};

class Search {
  readonly found = new Set<Active>();
  readonly #file: RegularFile;
  readonly #seen = new Set<number>();

  constructor(file: RegularFile) {
    this.#file = file;
  }

  action(value: Value | undefined): void {
    if (isRef(value)) {
      if (this.#seen.has(value.ref)) return;
      this.#seen.add(value.ref);
    }
    const action = this.#file.resolve(value);
    if (!isDict(action)) return;
    const sort = actions[nameOf(this.#file.resolve(action.get('S'))) ?? ''];
    if (sort !== undefined) this.found.add(sort);
    const next = this.#file.resolve(action.get('Next'));
    if (isList(next)) for (const item of next) this.action(item);
    else if (isDict(next)) this.action(action.get('Next'));
  }

  /** A and AA of anything that may carry them. */
  actionsOf(dict: Dict): void {
    this.action(dict.get('A'));
    const additional = this.#file.resolve(dict.get('AA'));
    if (isDict(additional)) for (const item of additional.values()) this.action(item);
  }

  page(page: PageEntry): void {
    this.actionsOf(page.dict);
    const list = this.#file.resolve(page.dict.get('Annots'));
    if (!isList(list)) return;
    for (const item of list) {
      const annotation = this.#file.dict(item);
      const sort = annotations[nameOf(this.#file.resolve(annotation.get('Subtype'))) ?? ''];
      if (sort !== undefined) this.found.add(sort);
      this.actionsOf(annotation);
    }
  }

  outline(value: Value | undefined): void {
    const waiting: Value[] = [value ?? null];
    for (let item = waiting.pop(); item !== undefined; item = waiting.pop()) {
      if (!isRef(item) || this.#seen.has(item.ref)) continue;
      this.#seen.add(item.ref);
      const dict = this.#file.dict(item);
      this.action(dict.get('A'));
      waiting.push(dict.get('First') ?? null, dict.get('Next') ?? null);
    }
  }
}

/** A /GoTo or a plain destination on opening only chooses the first view. */
function actsOnOpening(file: RegularFile, catalog: Dict): boolean {
  const opening = file.resolve(catalog.get('OpenAction'));
  return isDict(opening) && nameOf(file.resolve(opening.get('S'))) !== 'GoTo';
}

/** Sentences about everything in the file that acts, in a fixed order; empty for a plain paper. */
export function activeContent(file: RegularFile, pages: readonly PageEntry[]): readonly string[] {
  const search = new Search(file);
  const catalog = file.dict(file.trailer.get('Root'));
  const names = file.dict(catalog.get('Names'));
  if (names.has('JavaScript')) search.found.add('script');
  if (names.has('EmbeddedFiles') || catalog.has('AF')) search.found.add('attachment');
  if (actsOnOpening(file, catalog)) search.found.add('opening');
  search.action(catalog.get('OpenAction'));
  search.actionsOf(catalog);
  search.outline(file.dict(catalog.get('Outlines')).get('First'));
  for (const page of pages) search.page(page);
  for (const field of formFields(file)) search.actionsOf(field);
  return Object.entries(sentences).flatMap(([sort, say]) =>
    [...search.found].some((found) => found === sort) ? [say] : [],
  );
}
