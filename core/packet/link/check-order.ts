import { LotfileError } from '../../vocabulary/errors.ts';
import type { LinkOrder } from '../link-order.ts';
import type { PlanBookmark } from '../plan-model.ts';

/** An order that contradicts itself is our own mistake: say which part, write nothing. @throws LotfileError `internal`, `packet refused` */
export function checkOrder(order: LinkOrder): void {
  if (order.pages.length === 0) {
    throw new LotfileError('packet refused', 'There is no page in this packet.', {
      about: order.title,
      next: 'Put at least one paper in, or keep the cover on.',
    });
  }
  const ids = new Set(order.sources.map(({ id }) => id));
  if (ids.size !== order.sources.length) throw wrong('two sources have the same id');
  for (const [sheet, page] of order.pages.entries()) {
    if (!ids.has(page.source)) throw wrong(`sheet ${sheet + 1} comes from a source that is not listed`);
    if (!Number.isInteger(page.page) || page.page < 0) throw wrong(`sheet ${sheet + 1} has no page number`);
    for (const link of page.links) checkSheet(order, link.toSheet, 'a link');
    if (page.stamp !== undefined && order.stampFace === undefined) throw wrong('a stamp has no face to be set in');
  }
  const check = (bookmarks: readonly PlanBookmark[]): void => {
    for (const bookmark of bookmarks) {
      checkSheet(order, bookmark.sheet, `the bookmark "${bookmark.title}"`);
      check(bookmark.children);
    }
  };
  check(order.bookmarks);
  for (const label of order.labels) checkSheet(order, label.sheet, 'a page label');
}

function checkSheet(order: LinkOrder, sheet: number, who: string): void {
  if (!Number.isInteger(sheet) || sheet < 0 || sheet >= order.pages.length) {
    throw wrong(`${who} leads to sheet ${sheet + 1} of ${order.pages.length}`);
  }
}

function wrong(what: string): LotfileError {
  return new LotfileError('internal', `The packet's order is wrong: ${what}.`, {
    next: 'Please report this with the packet it happened in.',
  });
}
