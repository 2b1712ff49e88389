import type { ReaderDocument } from './open-document.ts';

/** A page in colour as a person sees it: red, green, blue from the top; one value a pixel where all is grey. */
export interface PagePixels {
  readonly width: number;
  readonly height: number;
  readonly channels: 1 | 3;
  readonly pixels: Uint8Array;
  /** Size as seen, in default units. */
  readonly points: { readonly width: number; readonly height: number };
}

/** fpdfview.h: FPDF_ANNOT, FPDFBitmap_BGRx. */
const withAnnotations = 1;
const colour = 3;
const white = 0xffffffff;

/** 200 dots an inch, as offices ask of scans; a sheet of 36 x 48 inches gets 110. */
const dots = 200 / 72;
const pixelLimit = 21_000_000;
const sideLimit = 30_000;

function scaleOf(width: number, height: number, wanted: number): number {
  const byArea = Math.sqrt(pixelLimit / Math.max(1, width * height));
  return Math.min(wanted, byArea, sideLimit / Math.max(1, width, height));
}

/** Blue, green, red, unused -> red, green, blue; or one grey value where the three never differ. */
function unpack(from: Uint8Array, at: { readonly width: number; readonly height: number; readonly stride: number }) {
  const { width, height, stride } = at;
  const rgb = new Uint8Array(width * height * 3);
  let coloured = false;
  for (let row = 0, to = 0; row < height; row += 1) {
    for (let source = row * stride; source < row * stride + width * 4; source += 4, to += 3) {
      const [blue = 255, green = 255, red = 255] = [from[source], from[source + 1], from[source + 2]];
      rgb[to] = red;
      rgb[to + 1] = green;
      rgb[to + 2] = blue;
      coloured ||= red !== green || green !== blue;
    }
  }
  if (coloured) return { channels: 3 as const, pixels: rgb };
  const grey = new Uint8Array(width * height);
  for (let pixel = 0; pixel < grey.length; pixel += 1) grey[pixel] = rgb[pixel * 3] ?? 255;
  return { channels: 1 as const, pixels: grey };
}

/**
 * Draws a page with its annotations and form values, fine enough to stand in for it.
 * @param wanted dots a point; fewer where the page is large
 * @returns undefined where the reader can't load the page
 */
export function drawPage(document: ReaderDocument, index: number, wanted = dots): PagePixels | undefined {
  const { call, heap } = document.reader;
  const page = call.FPDF_LoadPage(document.handle, index);
  if (page === 0) return undefined;
  call.FORM_OnAfterLoadPage(page, document.form);
  const points = { width: call.FPDF_GetPageWidthF(page), height: call.FPDF_GetPageHeightF(page) };
  const scale = scaleOf(points.width, points.height, wanted);
  const width = Math.max(1, Math.round(points.width * scale));
  const height = Math.max(1, Math.round(points.height * scale));
  const bitmap = call.FPDFBitmap_CreateEx(width, height, colour, 0, 0);
  try {
    if (bitmap === 0) return undefined;
    call.FPDFBitmap_FillRect(bitmap, 0, 0, width, height, white);
    call.FPDF_RenderPageBitmap(bitmap, page, 0, 0, width, height, 0, withAnnotations);
    call.FPDF_FFLDraw(document.form, bitmap, page, 0, 0, width, height, 0, withAnnotations);
    const start = call.FPDFBitmap_GetBuffer(bitmap);
    const stride = call.FPDFBitmap_GetStride(bitmap);
    const seen = heap.HEAPU8.subarray(start, start + stride * height);
    return { width, height, points, ...unpack(seen, { width, height, stride }) };
  } finally {
    if (bitmap !== 0) call.FPDFBitmap_Destroy(bitmap);
    call.FORM_OnBeforeClosePage(page, document.form);
    call.FPDF_ClosePage(page);
  }
}
