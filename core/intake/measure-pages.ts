import type { PageFacts, SeenRect } from '../vocabulary/lot.ts';
import { differenceOf, looksLost } from './judge.ts';
import type { KeepContext } from './keep-context.ts';
import { clearStrips } from './page/clear-strips.ts';
import { pageBytes } from './page/page-bytes.ts';
import { pageBalance } from './page/page-content.ts';
import type { PageEntry } from './page/page-tree.ts';
import { type SeenFrame, seenFrame } from './page/seen-frame.ts';
import type { ReaderDocument } from './pdfium/open-document.ts';
import { type PageSight, readPage } from './pdfium/read-page.ts';
import type { RegularFile } from './regular/regular-file.ts';

export interface Measuring {
  readonly context: KeepContext;
  readonly original: ReaderDocument;
  readonly kept: ReaderDocument;
  readonly file: RegularFile;
  readonly pages: readonly PageEntry[];
}

export type Measured =
  | { readonly ok: true; readonly pages: readonly PageFacts[]; readonly notes: readonly string[] }
  | { readonly ok: false; readonly why: string };

/** The reader's frame and ours must agree, or a mark would land somewhere else than it was measured. */
function agrees(frame: SeenFrame, sight: PageSight): boolean {
  return (
    Math.abs(frame.width - sight.width * frame.unit) < 0.5 && Math.abs(frame.height - sight.height * frame.unit) < 0.5
  );
}

function factsOf(
  measuring: Measuring,
  page: PageEntry,
  place: { readonly sight: PageSight; readonly index: number; readonly bytes: number },
): PageFacts {
  const { sight, index, bytes } = place;
  const frame = seenFrame(measuring.file, page);
  const balance = pageBalance(measuring.file, page);
  const measurable = balance !== undefined && agrees(frame, sight);
  const strips: readonly SeenRect[] = measurable ? clearStrips(sight.raster, frame) : [];
  return {
    page: index,
    width: frame.width,
    height: frame.height,
    clearStrips: strips,
    openSaves: balance?.openSaves ?? 0,
    extraRestores: balance?.extraRestores ?? 0,
    bytes,
    text: sight.text,
  };
}

/**
 * Compares every page of the kept file with the original, and measures it. Stops at the first page that lost
 * something and says what.
 */
export async function measurePages(measuring: Measuring): Promise<Measured> {
  const { context, original, kept, file, pages } = measuring;
  const bytes = pageBytes(file, pages);
  const facts: PageFacts[] = [];
  const notes: string[] = [];
  for (const [index, page] of pages.entries()) {
    const before = readPage(original, index);
    const after = readPage(kept, index);
    if (before === undefined || after === undefined) return { ok: false, why: `page ${index + 1} can't be read` };
    const difference = differenceOf(before, after);
    if (difference !== undefined) return { ok: false, why: `on page ${index + 1} ${difference}` };
    if (looksLost(after))
      notes.push(`Page ${index + 1} looks empty though it holds text: look at it before you use it.`);
    facts.push(factsOf(measuring, page, { sight: after, index, bytes: bytes[index] ?? 0 }));
    await context.onPage(index + 1, pages.length);
  }
  return { ok: true, pages: facts, notes };
}
