import type { ReaderDocument } from '../../intake/pdfium/open-document.ts';
import { withMemory } from '../../reader/pdfium-module.ts';
import type { SeenRect } from '../../vocabulary/lot.ts';

/** fpdf_flatten.h: FLAT_NORMALDISPLAY. */
const asDisplayed = 0;
/** Hundredths of a point are fine enough to say where something stands. */
const fine = 100;

/** Sides of a rectangle in the page's own units. */
export interface Corners {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

/** A seen rectangle in the page's own units, by the reader's own reckoning. */
export function pageCorners({ reader }: ReaderDocument, page: number, rect: SeenRect): Corners {
  const { call, heap } = reader;
  const [wide, high] = [call.FPDF_GetPageWidthF(page), call.FPDF_GetPageHeightF(page)];
  const [across, down] = [Math.round(wide * fine), Math.round(high * fine)];
  const point = (x: number, y: number): readonly [number, number] =>
    withMemory(heap, 16, (at) => {
      const [left, top] = [Math.round(x * fine), Math.round((high - y) * fine)];
      call.FPDF_DeviceToPage(page, 0, 0, across, down, 0, left, top, at, at + 8);
      return [heap.getValue(at, 'double'), heap.getValue(at + 8, 'double')];
    });
  const [a, b] = [point(rect.x, rect.y), point(rect.x + rect.width, rect.y + rect.height)];
  return {
    left: Math.min(a[0], b[0]),
    right: Math.max(a[0], b[0]),
    bottom: Math.min(a[1], b[1]),
    top: Math.max(a[1], b[1]),
  };
}

function boundedText(document: ReaderDocument, page: number, at: { text: number; rect: SeenRect }): string {
  const { call, heap } = document.reader;
  const { left, right, top, bottom } = pageCorners(document, page, at.rect);
  const count = call.FPDFText_GetBoundedText(at.text, left, top, right, bottom, 0, 0);
  if (count <= 0) return '';
  return withMemory(heap, count * 2 + 2, (pointer) => {
    const units = call.FPDFText_GetBoundedText(at.text, left, top, right, bottom, pointer, count);
    const bytes = heap.HEAPU8.subarray(pointer, pointer + Math.max(0, units) * 2);
    return Buffer.from(bytes).toString('utf16le').replaceAll('\0', '');
  });
}

/**
 * What the independent reader finds written at each place of one page, values of boxes included: it makes them part of
 * the page first, in its own memory.
 * @param rects on the page as seen, in default units
 */
export function textsAt(document: ReaderDocument, index: number, rects: readonly SeenRect[]): readonly string[] {
  const { call } = document.reader;
  const boxed = call.FPDF_LoadPage(document.handle, index);
  if (boxed === 0) return rects.map(() => '');
  call.FPDFPage_Flatten(boxed, asDisplayed);
  call.FPDF_ClosePage(boxed);
  const page = call.FPDF_LoadPage(document.handle, index);
  const text = page === 0 ? 0 : call.FPDFText_LoadPage(page);
  try {
    return text === 0 ? rects.map(() => '') : rects.map((rect) => boundedText(document, page, { text, rect }));
  } finally {
    if (text !== 0) call.FPDFText_ClosePage(text);
    if (page !== 0) call.FPDF_ClosePage(page);
  }
}
