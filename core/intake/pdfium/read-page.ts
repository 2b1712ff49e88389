import { withMemory } from '../../reader/pdfium-module.ts';
import type { ReaderDocument } from './open-document.ts';

/** A page in shades of grey as a person sees it, annotations and form values drawn; row by row from the top. */
export interface Raster {
  readonly width: number;
  readonly height: number;
  /** Pixels per point of the seen page. */
  readonly scale: number;
  readonly pixels: Uint8Array;
}

/** What the independent reader sees of one page. Sizes in default units: UserUnit is not applied. */
export interface PageSight {
  readonly width: number;
  readonly height: number;
  /** NFC; lines end in "\n". */
  readonly text: string;
  readonly raster: Raster;
}

/** fpdfview.h: FPDF_ANNOT, FPDFBitmap_Gray. Grey takes a third of the time of colour. */
const withAnnotations = 1;
const grey = 1;
const white = 0xffffffff;

/** No raster is larger than this many pixels (a sheet of 36 x 48 inches at 50 dpi has 4.3 million). */
const pixelLimit = 6_000_000;

/** 72 dpi for desk sizes, 50 for large sheets, less for banners. */
export function scaleFor(width: number, height: number): number {
  const wanted = Math.max(width, height) > 1300 ? 50 / 72 : 1;
  return Math.min(wanted, Math.sqrt(pixelLimit / Math.max(1, width * height)));
}

/**
 * PDFium marks a hyphen at a line's end with U+FFFE (or U+0002) and joins the lines: a broken word is joined,
 * anything else (a parcel number) keeps its hyphen.
 */
export function cleanText(raw: string): string {
  return raw
    .replace(/\r\n?/g, '\n')
    .replaceAll('\u0002', '\ufffe')
    .replace(/(?<=\p{L})\ufffe\n?(?=\p{Ll})/gu, '')
    .replace(/\ufffe\n?/g, '-')
    .replaceAll('\0', '')
    .normalize('NFC')
    .trim();
}

function readText(document: ReaderDocument, page: number): string {
  const { call, heap } = document.reader;
  const text = call.FPDFText_LoadPage(page);
  if (text === 0) return '';
  try {
    const count = call.FPDFText_CountChars(text);
    if (count <= 0) return '';
    return withMemory(heap, count * 2 + 2, (pointer) => {
      const units = call.FPDFText_GetText(text, 0, count, pointer);
      const end = pointer + Math.max(0, units - 1) * 2;
      return cleanText(Buffer.from(heap.HEAPU8.subarray(pointer, end)).toString('utf16le'));
    });
  } finally {
    call.FPDFText_ClosePage(text);
  }
}

function draw(document: ReaderDocument, page: number, scale: number): Raster {
  const { call, heap } = document.reader;
  const width = Math.max(1, Math.round(call.FPDF_GetPageWidthF(page) * scale));
  const height = Math.max(1, Math.round(call.FPDF_GetPageHeightF(page) * scale));
  const bitmap = call.FPDFBitmap_CreateEx(width, height, grey, 0, 0);
  if (bitmap === 0) throw new Error('The PDF reader ran out of memory.');
  try {
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
    return { width, height, scale, pixels };
  } finally {
    call.FPDFBitmap_Destroy(bitmap);
  }
}

/**
 * Looks at one page: size, text and picture.
 * @returns undefined where the reader can't load the page.
 */
export function readPage(document: ReaderDocument, index: number): PageSight | undefined {
  const { call } = document.reader;
  const page = call.FPDF_LoadPage(document.handle, index);
  if (page === 0) return undefined;
  call.FORM_OnAfterLoadPage(page, document.form);
  try {
    const width = call.FPDF_GetPageWidthF(page);
    const height = call.FPDF_GetPageHeightF(page);
    return { width, height, text: readText(document, page), raster: draw(document, page, scaleFor(width, height)) };
  } finally {
    call.FORM_OnBeforeClosePage(page, document.form);
    call.FPDF_ClosePage(page);
  }
}
