import type { ReaderDocument } from '../pdfium/open-document.ts';

/** A page in shades of grey, row by row from the top. */
export interface GreyPicture {
  readonly width: number;
  readonly height: number;
  readonly pixels: Uint8Array;
}

/** fpdfview.h: FPDF_ANNOT, FPDFBitmap_Gray; fpdf_edit.h: FPDF_PAGEOBJ_IMAGE. */
const withAnnotations = 1;
const grey = 1;
const white = 0xffffffff;

/** A sheet of 36 x 48 inches at 100 dpi has 17 million. */
const pixelLimit = 18_000_000;

/**
 * Draws one page in grey, annotations and form values included.
 * @param scale pixels per point; less where the page would grow beyond measure
 * @returns undefined where the page can't be loaded
 */
export function drawGrey(document: ReaderDocument, index: number, scale: number): GreyPicture | undefined {
  const { call, heap } = document.reader;
  const page = call.FPDF_LoadPage(document.handle, index);
  if (page === 0) return undefined;
  call.FORM_OnAfterLoadPage(page, document.form);
  const wide = call.FPDF_GetPageWidthF(page);
  const high = call.FPDF_GetPageHeightF(page);
  const fit = Math.min(scale, Math.sqrt(pixelLimit / Math.max(1, wide * high)));
  const width = Math.max(1, Math.round(wide * fit));
  const height = Math.max(1, Math.round(high * fit));
  const bitmap = call.FPDFBitmap_CreateEx(width, height, grey, 0, 0);
  try {
    if (bitmap === 0) throw new Error('The PDF reader ran out of memory.');
    call.FPDFBitmap_FillRect(bitmap, 0, 0, width, height, white);
    call.FPDF_RenderPageBitmap(bitmap, page, 0, 0, width, height, 0, withAnnotations);
    call.FPDF_FFLDraw(document.form, bitmap, page, 0, 0, width, height, 0, withAnnotations);
    const start = call.FPDFBitmap_GetBuffer(bitmap);
    const stride = call.FPDFBitmap_GetStride(bitmap);
    const pixels = new Uint8Array(width * height);
    for (let row = 0; row < height; row += 1) {
      const from = start + row * stride;
      pixels.set(heap.HEAPU8.subarray(from, from + width), row * width);
    }
    return { width, height, pixels };
  } finally {
    if (bitmap !== 0) call.FPDFBitmap_Destroy(bitmap);
    call.FORM_OnBeforeClosePage(page, document.form);
    call.FPDF_ClosePage(page);
  }
}
