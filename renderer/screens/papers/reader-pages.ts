import type { PageRow } from '../../../core/desk/contract/screen-answers.ts';
import type { SeenRect } from '../../../core/vocabulary/lot.ts';

/** A page to show, kept or still on the table. */
export type ReaderPage = PageRow;

/** A place on a page to point at: what a fact was read from. */
export interface PointedAt {
  /** 0-based in the edition. */
  readonly page: number;
  readonly place?: SeenRect | undefined;
}

/** Width and height as turned. */
export function seenSize({ width, height, turn }: ReaderPage): { readonly width: number; readonly height: number } {
  return turn === 90 || turn === 270 ? { width: height, height: width } : { width, height };
}

/** The place in shares of the page as shown, from its upper left corner; places are noted on the unturned page. */
export function shareOf(place: SeenRect, { width, height, turn }: ReaderPage): Readonly<Record<string, string>> {
  const x = place.x / width;
  const y = 1 - (place.y + place.height) / height;
  const w = place.width / width;
  const h = place.height / height;
  const percent = (value: number): string => `${(value * 100).toFixed(2)}%`;
  switch (turn) {
    case 0:
      return { left: percent(x), top: percent(y), width: percent(w), height: percent(h) };
    case 90:
      return { left: percent(1 - y - h), top: percent(x), width: percent(h), height: percent(w) };
    case 180:
      return { left: percent(1 - x - w), top: percent(1 - y - h), width: percent(w), height: percent(h) };
    case 270:
      return { left: percent(y), top: percent(1 - x - w), width: percent(h), height: percent(w) };
  }
}
