import type { Day } from '../../vocabulary/days.ts';
import type { KindId, Practice } from '../../vocabulary/practice.ts';
import { manyLabels, type PageSigns, pageSigns, sameNumber } from './page-begins.ts';
import type { PageText } from './page-text.ts';
import type { SuggestedCut } from './reading-model.ts';

/** A paper while its pages are gone through. */
interface Open {
  readonly from: number;
  readonly because: string | undefined;
  kind: KindId | undefined;
  number: string | undefined;
  /** The last "page n of m" on it. */
  mark: PageSigns['mark'];
  to: number;
}

/** With a heading of another kind, fewer do. */
const someLabels = 2;

/** The page is counted as a later one of its paper. */
function countedOn({ mark }: PageSigns): boolean {
  return mark !== undefined && mark.page > 1;
}

function byNumber(open: Open, signs: PageSigns): string | undefined {
  const { number } = signs;
  if (number === undefined || open.number === undefined || sameNumber(number, open.number)) return undefined;
  return `The pages before bear the number ${open.number}, this one ${number}.`;
}

/** Why a new paper begins at this page; undefined where it goes on with the one before. */
function beginsBecause(open: Open, signs: PageSigns, afterBlank: boolean): string | undefined {
  const { kind, named, mark, goesOn, labels } = signs;
  const title = named === undefined ? undefined : `It reads “${named}”.`;
  if (countedOn(signs) || goesOn !== undefined) return undefined;
  if (mark?.page === 1 && (open.mark === undefined || open.mark.page >= open.mark.of))
    return title ?? `It says “${mark.words}”.`;
  // "Conditions of approval" may head a later page: a first one bears a number or labels with values too.
  if (kind !== undefined && open.kind !== undefined && kind !== open.kind)
    return labels >= someLabels || signs.number !== undefined ? title : undefined;
  const otherNumber = byNumber(open, signs);
  if (kind !== undefined && kind === open.kind) {
    if (otherNumber !== undefined) return otherNumber;
    // The same heading and number stand on every page of some papers.
    const known = signs.number !== undefined && open.number !== undefined;
    return !known && labels >= manyLabels ? title : undefined;
  }
  if (kind !== undefined) return labels >= manyLabels || afterBlank ? title : undefined;
  if (labels >= manyLabels && otherNumber !== undefined) return otherNumber;
  return undefined;
}

function openAt(signs: PageSigns, because?: string): Open {
  const { page, number, mark } = signs;
  return { from: page, to: page, because, kind: signs.kind, number, mark };
}

function goOn(open: Open, { page, number, mark }: PageSigns): void {
  open.to = page;
  open.number ??= number;
  open.mark = mark ?? open.mark;
}

function cutOf({ from, to, kind, because }: Open): SuggestedCut {
  return { from, to, kind, because };
}

/**
 * Where a scan of many pages looks like several papers that went through the scanner one after the other: a page whose
 * heading names another kind, another number under the same label, "Page 1 of", a heading after a blank page. Only ever
 * a suggestion. Pure.
 * @param pages of one file, in order
 * @returns the papers in order, blank pages before and between them left out; one where nothing speaks for a cut, none
 *   where no page bears ink
 */
export function suggestCuts(pages: readonly PageText[], practice: Practice, today: Day): readonly SuggestedCut[] {
  if (pages.length < 2) return [];
  const found: Open[] = [];
  let afterBlank = false;
  for (const page of pages) {
    const signs = pageSigns(page, practice, today);
    if (signs.blank) {
      // The back of a paper's last sheet belongs to none, nor does one before the first; inside of a paper it comes along.
      afterBlank = true;
      continue;
    }
    const open = found.at(-1);
    if (open === undefined) {
      found.push(openAt(signs));
      afterBlank = false;
      continue;
    }
    const because = beginsBecause(open, signs, afterBlank);
    if (because === undefined) goOn(open, signs);
    else found.push(openAt(signs, because));
    afterBlank = false;
  }
  return found.map(cutOf);
}
