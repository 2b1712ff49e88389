import type { SeenRect } from '../../../core/vocabulary/lot.ts';
import type { ReaderPage } from './reader-pages.ts';

/** A place drawn over a page. */
export interface DrawnPlace extends SeenRect {
  /** 0-based in the paper. */
  readonly page: number;
}

/** In shares of the page as shown, from its upper left corner. */
export interface ShownShare {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** From what was drawn on the page as shown to points on the unturned page: `shareOf` the other way. */
export function placeOf(share: ShownShare, { width, height, turn }: ReaderPage): SeenRect {
  const { left, top, width: w, height: h } = share;
  const unturned = (x: number, y: number, wide: number, high: number): SeenRect => ({
    x: x * width,
    y: (1 - y - high) * height,
    width: wide * width,
    height: high * height,
  });
  switch (turn) {
    case 0:
      return unturned(left, top, w, h);
    case 90:
      return unturned(top, 1 - left - w, h, w);
    case 180:
      return unturned(1 - left - w, 1 - top - h, w, h);
    case 270:
      return unturned(1 - top - h, left, h, w);
  }
}

/** Moved or sized by keys, kept on the page. */
export function nudged(
  place: DrawnPlace,
  by: { x: number; y: number; wider: number; taller: number },
  page: ReaderPage,
): DrawnPlace {
  const width = Math.min(page.width, Math.max(6, place.width + by.wider));
  const height = Math.min(page.height, Math.max(6, place.height + by.taller));
  return {
    page: place.page,
    width,
    height,
    x: Math.min(page.width - width, Math.max(0, place.x + by.x)),
    y: Math.min(page.height - height, Math.max(0, place.y + by.y)),
  };
}
