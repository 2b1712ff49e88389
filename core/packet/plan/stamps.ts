import type { FontMetrics } from '../../typeset/drawing.ts';
import type { EditionPage, SeenRect } from '../../vocabulary/lot.ts';
import type { PlanStamp } from '../plan-model.ts';

/** The smallest size at which a margin line still reads, in points. */
const smallest = 5;

export interface StampOrder {
  readonly text: string;
  readonly tab: number;
  readonly tabs: number;
  readonly draft: boolean;
}

/** Whether a strip comes to stand at the foot of the page once that is turned. */
function atFoot({ x, y }: SeenRect, { facts, turn }: EditionPage): boolean {
  switch (turn) {
    case 0:
      return y < facts.height / 2;
    case 90:
      return x > facts.width / 2;
    case 180:
      return y > facts.height / 2;
    case 270:
      return x < facts.width / 2;
  }
}

/** Strips that lie level on the page as it will be seen, the foot first; a line up the side would not be upright. */
function inReadingOrder(page: EditionPage): readonly SeenRect[] {
  const quarter = page.turn % 180 !== 0;
  const level = page.facts.clearStrips.filter(({ width, height }) => width >= height !== quarter);
  const [foot = [], head = []] = [true, false].map((low) => level.filter((strip) => atFoot(strip, page) === low));
  return [...foot, ...head];
}

/** Lays a stamp into the first clear strip that its text fits into; else says why the page stays bare. */
export function stampFor(
  page: EditionPage,
  order: StampOrder,
  metrics: FontMetrics,
): PlanStamp | { readonly none: string } {
  const strips = inReadingOrder(page);
  if (strips.length === 0) return { none: 'no clear margin' };
  const draft = order.draft ? metrics.widthOf('DRAFT', 'text', smallest) + 5 : 0;
  const needed = metrics.widthOf(order.text, 'text', smallest) + draft + 8;
  const fits = ({ width, height }: SeenRect): boolean =>
    Math.max(width, height) >= needed && Math.min(width, height) >= smallest * 1.06;
  const strip = strips.find(fits);
  if (strip === undefined) return { none: 'clear margin too small' };
  return { strip, text: order.text, tabs: order.tabs, tab: order.tab, draft: order.draft };
}

/** The page numbers that stay bare, gathered by reason, as sentences for the person. */
export function unstampedNotes(bare: readonly { readonly why: string; readonly title: string }[]): readonly string[] {
  const counts = new Map<string, Map<string, number>>();
  for (const { why, title } of bare) {
    const titles = counts.get(why) ?? new Map<string, number>();
    titles.set(title, (titles.get(title) ?? 0) + 1);
    counts.set(why, titles);
  }
  return [...counts].map(([why, titles]) => {
    const total = [...titles.values()].reduce((sum, count) => sum + count, 0);
    const papers = [...titles].map(([title, count]) => `${title} (${count})`);
    const named = papers.length > 4 ? [...papers.slice(0, 3), `${papers.length - 3} more papers`] : papers;
    return `${total === 1 ? '1 sheet bears' : `${total} sheets bear`} no margin line: ${why}. ${named.join(', ')}.`;
  });
}
