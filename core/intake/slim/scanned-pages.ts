import { readLayer } from '../ocr/page-words.ts';
import type { ReaderDocument } from '../pdfium/open-document.ts';

/** fpdf_edit.h: FPDF_PAGEOBJ_PATH. */
const pathObject = 2;
/** A scan may have a frame or a stamp drawn on it; a drawing has thousands of lines. */
const mostPaths = 60;

/** True where lines are drawn on the page: it is never pressed, whatever lies behind it. */
function isDrawing(document: ReaderDocument, index: number): boolean {
  const { call } = document.reader;
  const page = call.FPDF_LoadPage(document.handle, index);
  if (page === 0) return true;
  try {
    const count = call.FPDFPage_CountObjects(page);
    let paths = 0;
    for (let at = 0; at < count && paths <= mostPaths; at += 1) {
      if (call.FPDFPageObj_GetType(call.FPDFPage_GetObject(page, at)) === pathObject) paths += 1;
    }
    return paths > mostPaths;
  } finally {
    call.FPDF_ClosePage(page);
  }
}

/** Pages that are pictures: a scan or a photo covers most of the sheet, and nothing is drawn over it. */
export function scannedPages(document: ReaderDocument): ReadonlySet<number> {
  const found = new Set<number>();
  for (let index = 0; index < document.pageCount; index += 1) {
    if (!isDrawing(document, index) && isPicture(document, index)) found.add(index);
  }
  return found;
}

function isPicture(document: ReaderDocument, index: number): boolean {
  const layer = readLayer(document, index);
  // A photo fitted on a letter sheet leaves margins: a page with no words of its own is a picture all the same.
  return layer !== undefined && (layer.scan || layer.words.length === 0);
}
