import type { ReaderDocument } from '../../intake/pdfium/open-document.ts';
import { withMemory } from '../../reader/pdfium-module.ts';
import type { SeenRect } from '../../vocabulary/lot.ts';
import { type Corners, pageCorners } from './seen-text.ts';

/** Corners this close are the same place: they are reckoned in hundredths of a point. */
const close = 0.6;

/** fs_rectf of fpdfview.h: left, top, right, bottom; four bytes each. */
function rectOf({ reader }: ReaderDocument, annotation: number): Corners | undefined {
  const { call, heap } = reader;
  return withMemory(heap, 16, (at) => {
    if (!call.FPDFAnnot_GetRect(annotation, at)) return undefined;
    const [a, b, c, d] = [0, 4, 8, 12].map((n) => heap.getValue(at + n, 'float'));
    if (a === undefined || b === undefined || c === undefined || d === undefined) return undefined;
    return { left: Math.min(a, c), right: Math.max(a, c), bottom: Math.min(b, d), top: Math.max(b, d) };
  });
}

function isAt(one: Corners, other: Corners): boolean {
  return (['left', 'right', 'bottom', 'top'] as const).every((side) => Math.abs(one[side] - other[side]) < close);
}

/** What the independent reader finds ticked on one page. */
export interface SeenMarks {
  /** Numbers of the places where a ticked square stands. */
  readonly at: ReadonlySet<number>;
  /** Ticked squares that stand at none of them. */
  readonly elsewhere: number;
}

function isTicked({ reader, form }: ReaderDocument, annotation: number): boolean {
  return reader.call.FPDFAnnot_IsChecked(form, annotation);
}

/** Rectangles of the ticked squares, those without room left out: they can't show. */
function tickedRects(document: ReaderDocument, page: number): readonly Corners[] {
  const { call } = document.reader;
  return Array.from({ length: call.FPDFPage_GetAnnotCount(page) }, (_, n) => n).flatMap((n) => {
    const annotation = call.FPDFPage_GetAnnot(page, n);
    if (annotation === 0) return [];
    try {
      const rect = isTicked(document, annotation) ? rectOf(document, annotation) : undefined;
      return rect === undefined || rect.left === rect.right || rect.bottom === rect.top ? [] : [rect];
    } finally {
      call.FPDFPage_CloseAnnot(annotation);
    }
  });
}

/**
 * Tick boxes and radios of a page that carry a mark, by their own state, whether it shows or not.
 * @param places on the page as seen, in default units
 */
export function marksOn(document: ReaderDocument, index: number, places: readonly SeenRect[]): SeenMarks {
  const { call } = document.reader;
  const page = call.FPDF_LoadPage(document.handle, index);
  if (page === 0) return { at: new Set(), elsewhere: 0 };
  call.FORM_OnAfterLoadPage(page, document.form);
  try {
    const corners = places.map((place) => pageCorners(document, page, place));
    const found = tickedRects(document, page).map((rect) => corners.flatMap((one, n) => (isAt(one, rect) ? [n] : [])));
    return { at: new Set(found.flat()), elsewhere: found.filter(({ length }) => length === 0).length };
  } finally {
    call.FORM_OnBeforeClosePage(page, document.form);
    call.FPDF_ClosePage(page);
  }
}
