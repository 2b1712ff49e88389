import type { Pace } from '../link/pace.ts';
import type { LinkOrder, LinkPage } from '../link-order.ts';
import type { PlanBookmark } from '../plan-model.ts';
import { expectedLabels } from './expected-labels.ts';
import { misread } from './misread.ts';
import { type OpenedFile, openWithReader, type PageSize, type SeenBookmark } from './open-finished.ts';

export interface SeenStructure {
  readonly pages: number;
  readonly bookmarks: number;
  readonly links: number;
  /** Written sheets whose words were compared with what was drawn. */
  readonly sheets: number;
  /** Of every page. */
  readonly sizes: readonly PageSize[];
}

/**
 * What an independent reader says of the finished file against the order: pages, labels, outline, the links and words
 * of the sheets we wrote; and how large it sees every page.
 * @throws LotfileError `internal`, naming what differs.
 */
export async function checkStructure(order: LinkOrder, path: string, pace: Pace): Promise<SeenStructure> {
  using finished = await openWithReader(path);
  if (finished === undefined) throw misread(order.title, 'an independent reader refuses to open it');
  if (finished.pages !== order.pages.length) {
    throw misread(order.title, `it has ${finished.pages} pages instead of ${order.pages.length}`);
  }
  checkLabels(order, finished);
  // Before the outline: the reader walks the tree anew for every page it is led to and hasn't met yet.
  const sizes: PageSize[] = [];
  for (let page = 0; page < finished.pages; page += 1) {
    await pace.step('Measuring pages', { done: page + 1, of: finished.pages, bytes: 0 });
    sizes.push(finished.sizeOf(page));
  }
  const bookmarks = sameOutline(order.bookmarks, finished.outline());
  if (bookmarks < 0) throw misread(order.title, 'a bookmark is missing or leads elsewhere');
  const links = checkLinks(order, finished);
  const sheets = await checkWords(order, finished);
  return { pages: finished.pages, bookmarks, links, sheets, sizes };
}

function checkLabels(order: LinkOrder, finished: OpenedFile): void {
  if (order.labels.length === 0) return;
  for (const [page, label] of expectedLabels(order.labels, order.pages.length).entries()) {
    const seen = finished.labelOf(page);
    if (seen !== label.normalize('NFC'))
      throw misread(order.title, `page ${page + 1} is labelled "${seen}", not "${label}"`);
  }
}

/** How many bookmarks agree; -1 when one doesn't. */
function sameOutline(ordered: readonly PlanBookmark[], seen: readonly SeenBookmark[]): number {
  if (ordered.length !== seen.length) return -1;
  let count = 0;
  for (const [i, bookmark] of ordered.entries()) {
    const other = seen[i];
    if (other === undefined || other.page !== bookmark.sheet) return -1;
    if (other.title !== bookmark.title.normalize('NFC')) return -1;
    const below = sameOutline(bookmark.children, other.children);
    if (below < 0) return -1;
    count += 1 + below;
  }
  return count;
}

/** Readers round to single precision. */
const near = (a: number, b: number): boolean => Math.abs(a - b) < 0.05;

function checkLinks(order: LinkOrder, finished: OpenedFile): number {
  let count = 0;
  for (const [sheet, page] of order.pages.entries()) {
    if (page.links.length === 0) continue;
    const seen = finished.linksOf(sheet);
    for (const link of page.links) {
      const found = seen.some(
        (one) =>
          one.page === link.toSheet &&
          near(one.x, link.x) &&
          near(one.y, link.y) &&
          near(one.width, link.width) &&
          near(one.height, link.height),
      );
      if (!found) throw misread(order.title, `a link on page ${sheet + 1} does not lead to page ${link.toSheet + 1}`);
      count += 1;
    }
  }
  return count;
}

/** The words of written sheets against the source as the same reader sees it. */
async function checkWords(order: LinkOrder, finished: OpenedFile): Promise<number> {
  let sheets = 0;
  for (const source of order.sources) {
    const places = order.pages.flatMap((page, sheet) =>
      page.source === source.id && isWritten(order, page) ? [{ page, sheet }] : [],
    );
    if (places.length === 0) continue;
    using opened = await openWithReader(source.path);
    if (opened === undefined) throw misread(order.title, `an independent reader refuses to open "${source.title}"`);
    for (const { page, sheet } of places) {
      if (opened.textOf(page.page) !== finished.textOf(sheet)) {
        throw misread(order.title, `the words of page ${sheet + 1} are not those that were written`);
      }
      sheets += 1;
    }
  }
  return sheets;
}

function isWritten(order: LinkOrder, page: LinkPage): boolean {
  return (page.source === order.stampFace?.source || page.links.length > 0) && page.stamp === undefined;
}
