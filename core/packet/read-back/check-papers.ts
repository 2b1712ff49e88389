import type { EqualSpan } from '../link/aside.ts';
import type { OpenSource } from '../link/open-sources.ts';
import type { Pace } from '../link/pace.ts';
import type { SourcePage, SourcePages } from '../link/page-walk.ts';
import { boxOf, seenSize, turnOf, visibleBox } from '../link/seen-frame.ts';
import type { PdfFile } from '../link/syntax/pdf-file.ts';
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
import type { LinkOrder, LinkPage } from '../link-order.ts';
import { misread } from './misread.ts';
import { openWithReader, type PageSize } from './open-finished.ts';
import { SameObjects } from './same-objects.ts';

export interface Finished {
  readonly file: PdfFile;
  readonly pages: SourcePages;
}

export interface PaperCheck {
  readonly order: LinkOrder;
  readonly finished: Finished;
  readonly sources: readonly OpenSource[];
  /** Of every page of the finished file, as the independent reader sees it. */
  readonly sizes: readonly PageSize[];
  readonly pace: Pace;
}

/**
 * Every page against the page it came from: size, boxes, turn, its list of streams, everything its resources lead to.
 * @returns the streams met on the way, in pairs: the caller sees to it that their bytes are the same.
 * @throws LotfileError `internal` naming page and paper.
 */
export async function followPapers(check: PaperCheck): Promise<readonly EqualSpan[]> {
  const pairs: EqualSpan[] = [];
  for (const source of check.sources) await followSource(check, source, pairs);
  return pairs;
}

async function followSource(
  { order, finished, sizes, pace }: PaperCheck,
  { id, file, walked }: OpenSource,
  pairs: EqualSpan[],
): Promise<void> {
  let strange = false;
  const root = file.table.trailer.get('Root');
  const apart = new Set([...walked.nodes, ...walked.pages.map(({ num }) => num)]);
  if (root instanceof PdfRef) apart.add(root.num);
  const shared = new SameObjects(file, finished.file, { apart, pairs });
  // Stamped resources are written anew per page, so they are looked at from the entries inward.
  for (const [sheet, page] of order.pages.entries()) {
    if (page.source !== id) continue;
    await pace.step('Comparing pages', { done: sheet + 1, of: order.pages.length, bytes: 0 });
    const mine = walked.pages[page.page];
    const theirs = finished.pages.pages[sheet];
    const wrong =
      mine === undefined || theirs === undefined
        ? 'is missing'
        : comparePage({ page, shared }, sideOf(file, mine), sideOf(finished.file, theirs));
    if (wrong !== undefined) throw misread(order.title, `page ${sheet + 1} ("${file.title}") ${wrong}`);
    if (mine !== undefined && !isNear(sizes[sheet], expectedSize(sideOf(file, mine), page))) strange = true;
  }
  if (strange) await compareSizes({ order, sizes }, id);
}

/** What a reader should see of a page: it turns and crops, but leaves UserUnit out. */
function expectedSize(side: Side, page: LinkPage): PageSize {
  const box = visibleBox(boxOf(side.file, side.entry('MediaBox')), boxOf(side.file, side.entry('CropBox')));
  return seenSize({ box, rotate: turnOf(rotation(side) + page.turn), userUnit: 1 });
}

/** Readers round to single precision. */
function isNear(seen: PageSize | undefined, expected: PageSize): boolean {
  if (seen === undefined || seen.width <= 0) return false;
  return Math.abs(seen.width - expected.width) < 0.05 && Math.abs(seen.height - expected.height) < 0.05;
}

/** A reader may see an odd page otherwise than we do: then it must see the kept page just so. */
async function compareSizes({ order, sizes }: Pick<PaperCheck, 'order' | 'sizes'>, id: string): Promise<void> {
  const source = order.sources.find((one) => one.id === id);
  if (source === undefined) return;
  using opened = await openWithReader(source.path);
  if (opened === undefined) throw misread(order.title, `an independent reader refuses to open "${source.title}"`);
  for (const [sheet, page] of order.pages.entries()) {
    if (page.source !== id) continue;
    const { width, height } = opened.sizeOf(page.page);
    const turned = page.turn % 180 === 0 ? { width, height } : { width: height, height: width };
    if (isNear(sizes[sheet], turned)) continue;
    throw misread(order.title, `page ${sheet + 1} has another size than in "${source.title}"`);
  }
}

interface Side {
  readonly file: PdfFile;
  readonly entry: (key: string) => PdfValue | undefined;
}

function sideOf(file: PdfFile, page: SourcePage): Side {
  return { file, entry: (key) => page.own.get(key) ?? page.inherited.get(key) };
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
