import { LotfileError } from '../../vocabulary/errors.ts';
import type { PageFacts, SeenRect } from '../../vocabulary/lot.ts';
import type { BlackOut } from '../rendition-model.ts';

/** What is to be blacked out on each page, by page number. */
export type Places = ReadonlyMap<number, readonly SeenRect[]>;

/** A place smaller than this hides nothing. */
const least = 1;

function within({ x, y, width, height }: SeenRect, page: PageFacts): SeenRect | undefined {
  const [left, bottom] = [Math.max(0, x), Math.max(0, y)];
  const [right, top] = [Math.min(page.width, x + width), Math.min(page.height, y + height)];
  return right - left >= least && top - bottom >= least
    ? { x: left, y: bottom, width: right - left, height: top - bottom }
    : undefined;
}

/**
 * Sorts the places by page and cuts them to it.
 * @throws LotfileError `wrong use` for a page that is not there, or a place beside the page
 */
export function placesOf(asked: readonly BlackOut[], pages: readonly PageFacts[]): Places {
  const places = new Map<number, SeenRect[]>();
  for (const { page, place } of asked) {
    const facts = pages[page];
    const cut = facts === undefined ? undefined : within(place, facts);
    if (cut === undefined) {
      throw new LotfileError('wrong use', `A place to black out lies beside page ${page + 1}.`, {
        about: `page ${page + 1}`,
        next: 'Draw it on the page again.',
      });
    }
    places.set(page, [...(places.get(page) ?? []), cut]);
  }
  return places;
}

export function touches(a: SeenRect, b: SeenRect): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}
