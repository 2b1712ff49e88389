import { closeSync } from 'node:fs';
import type { EqualSpan, HashAside } from '../link/hash-aside.ts';
import { openKept } from '../link/open-sources.ts';
import type { Pace } from '../link/pace.ts';
import { type SourcePage, type SourcePages, walkPages } from '../link/page-walk.ts';
import { boxOf, turnOf } from '../link/seen-frame.ts';
import { PdfFile } from '../link/syntax/pdf-file.ts';
import {
  emptyDict,
  isArray,
  isDict,
  nameOf,
  numberOf,
  type PdfDict,
  PdfRef,
  type PdfValue,
} from '../link/syntax/values.ts';
import type { LinkOrder, LinkPage, LinkSource } from '../link-order.ts';
import { misread } from './misread.ts';
import { SameObjects } from './same-objects.ts';

export interface Finished {
  readonly file: PdfFile;
  readonly pages: SourcePages;
}

/**
 * Every page against the page it came from: boxes, turn, its list of streams, everything its resources lead to.
 * The bytes of the streams met are compared on a second core, paper by paper, while the next is followed.
 */
export class PaperCheck {
  readonly #order: LinkOrder;
  readonly #finished: Finished;
  readonly #aside: HashAside;
  readonly #fds: number[] = [];
  readonly #compared: Promise<number | undefined>[] = [];

  constructor(order: LinkOrder, finished: Finished, aside: HashAside) {
    this.#order = order;
    this.#finished = finished;
    this.#aside = aside;
  }

  /**
   * @returns how many streams were met and are now compared.
   * @throws LotfileError `internal` naming page and paper.
   */
  async follow(pace: Pace): Promise<number> {
    const finished = this.#finished;
    let streams = 0;
    for (const source of this.#order.sources) {
      const fd = openKept(source.path, source.title);
      this.#fds.push(fd);
      const pairs: EqualSpan[] = [];
      await checkSource(this.#order, source, { finished, file: new PdfFile(source.title, fd), pairs, pace });
      const compared = this.#aside.compare(finished.file.fd, pairs);
      // Heard in `differsAt`.
      compared.catch(() => undefined);
      this.#compared.push(compared);
      streams += pairs.length;
    }
    return streams;
  }

  /** Offset in the finished file of the first piece that differs from its paper; undefined when none does. */
  async differsAt(): Promise<number | undefined> {
    for (const compared of this.#compared) {
      const at = await compared;
      if (at !== undefined) return at;
    }
    return undefined;
  }

  /** Only after the comparing has ended, or was given up. */
  close(): void {
    for (const fd of this.#fds.splice(0)) closeSync(fd);
  }
}

interface Look {
  readonly finished: Finished;
  readonly file: PdfFile;
  readonly pairs: EqualSpan[];
  readonly pace: Pace;
}

async function checkSource(order: LinkOrder, source: LinkSource, { finished, file, pairs, pace }: Look): Promise<void> {
  const walked = walkPages(file);
  const root = file.table.trailer.get('Root');
  const apart = new Set([...walked.nodes, ...walked.pages.map(({ num }) => num)]);
  if (root instanceof PdfRef) apart.add(root.num);
  const shared = new SameObjects(file, finished.file, { apart, pairs });
  // Stamped resources are written anew per page, so they are looked at from the entries inward.
  for (const [sheet, page] of order.pages.entries()) {
    if (page.source !== source.id) continue;
    await pace.step('Comparing pages', { done: sheet + 1, of: order.pages.length, bytes: 0 });
    const mine = walked.pages[page.page];
    const theirs = finished.pages.pages[sheet];
    const wrong =
      mine === undefined || theirs === undefined
        ? 'is missing'
        : comparePage({ page, shared }, sideOf(file, mine), sideOf(finished.file, theirs));
    if (wrong !== undefined) throw misread(order.title, `page ${sheet + 1} ("${source.title}") ${wrong}`);
  }
}

interface Side {
  readonly file: PdfFile;
  readonly entry: (key: string) => PdfValue | undefined;
}

function sideOf(file: PdfFile, page: SourcePage): Side {
  const own = file.dictOf(new PdfRef(page.num, file.table.gens[page.num] ?? 0)) ?? emptyDict;
  return { file, entry: (key) => own.get(key) ?? page.inherited.get(key) };
}

/** What differs, in words that follow "page n"; undefined when nothing does. */
function comparePage(
  { page, shared }: { readonly page: LinkPage; readonly shared: SameObjects },
  mine: Side,
  theirs: Side,
): string | undefined {
  for (const key of ['MediaBox', 'CropBox']) {
    const a = boxOf(mine.file, mine.entry(key));
    const b = boxOf(theirs.file, theirs.entry(key));
    if (a !== undefined && JSON.stringify(a) !== JSON.stringify(b)) return 'has other edges';
  }
  if (turnOf(rotation(mine) + page.turn) !== turnOf(rotation(theirs))) return 'is turned another way';
  if (!sameContents(shared, mine, theirs)) return 'has other content';
  if (!sameResources(shared, mine, theirs)) return 'uses other fonts or pictures';
  if (!sameLooks(shared, mine, theirs)) return 'has a field or note that looks otherwise';
  return undefined;
}

function rotation(side: Side): number {
  return numberOf(side.file.resolve(side.entry('Rotate'))) ?? 0;
}

/** The page's own streams in their order; a stamp adds exactly one before and one after. */
function sameContents(shared: SameObjects, mine: Side, theirs: Side): boolean {
  const own = streamsOf(mine);
  const all = streamsOf(theirs);
  if (all.length !== own.length && all.length !== own.length + 2) return false;
  const inner = all.length === own.length ? all : all.slice(1, -1);
  return own.every((ref, i) => shared.same(ref, inner[i]));
}

function streamsOf(side: Side): readonly PdfRef[] {
  const value = side.entry('Contents');
  const found = side.file.resolve(value);
  const list: readonly PdfValue[] = isArray(found) ? found : [value ?? null];
  return list.flatMap((part) => (part instanceof PdfRef && side.file.object(part).stream !== undefined ? [part] : []));
}

function sameResources(shared: SameObjects, mine: Side, theirs: Side): boolean {
  const a = mine.file.dictOf(mine.entry('Resources')) ?? emptyDict;
  const b = theirs.file.dictOf(theirs.entry('Resources')) ?? emptyDict;
  for (const [key, value] of a) {
    const same =
      key === 'Font'
        ? sameFonts(shared, mine.file.resolve(value), theirs.file.dictOf(b.get(key)))
        : shared.same(value, b.get(key));
    if (!same) return false;
  }
  return true;
}

/** The stamp's font may stand beside the page's own. */
function sameFonts(shared: SameObjects, mine: PdfValue, theirs: PdfDict | undefined): boolean {
  if (!isDict(mine)) return true;
  for (const [name, font] of mine) if (!shared.same(font, theirs?.get(name))) return false;
  return true;
}

/**
 * Every carried field or note still has the look it had. They keep their order, some are rightly gone, and links we
 * drew have no look. Fields of a form that left their look to the reader were drawn anew: they are not compared.
 */
function sameLooks(shared: SameObjects, mine: Side, theirs: Side): boolean {
  const before = looksOf(mine);
  const catalog = mine.file.dictOf(mine.file.table.trailer.get('Root'));
  const drawnAnew = mine.file.resolve(mine.file.dictOf(catalog?.get('AcroForm'))?.get('NeedAppearances')) === true;
  let from = 0;
  for (const after of looksOf(theirs)) {
    if (drawnAnew && after.widget) continue;
    const at = before.findIndex((one, i) => i >= from && one.place === after.place);
    const kept = before[at];
    if (kept === undefined || !shared.same(kept.look, after.look)) return false;
    from = at + 1;
  }
  return true;
}

interface AnnotationLook {
  readonly place: string;
  readonly widget: boolean;
  readonly look: PdfValue;
}

function looksOf(side: Side): readonly AnnotationLook[] {
  const listed = side.file.resolve(side.entry('Annots'));
  return (isArray(listed) ? listed : []).flatMap((entry) => {
    const annotation = side.file.dictOf(entry);
    const look = annotation?.get('AP');
    const rect = boxOf(side.file, annotation?.get('Rect'));
    if (look === undefined || look === null) return [];
    return [{ look, place: JSON.stringify(rect), widget: nameOf(annotation?.get('Subtype')) === 'Widget' }];
  });
}
