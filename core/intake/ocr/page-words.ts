import { withMemory } from '../../reader/pdfium-module.ts';
import type { SeenRect } from '../../vocabulary/lot.ts';
import type { ReaderDocument } from '../pdfium/open-document.ts';
import type { TextWord } from '../reading/page-text.ts';

/** What a page says by itself, before anyone looks at its picture. */
export interface PageLayer {
  readonly width: number;
  readonly height: number;
  readonly words: readonly TextWord[];
  /** A picture covers most of the page: a scan, whatever text a machine may have hidden behind it. */
  readonly scan: boolean;
  /** Dots per inch of that picture; undefined where there is none. */
  readonly dpi: number | undefined;
}

interface Letter {
  readonly text: string;
  readonly box: SeenRect | undefined;
}

/** Finer than a hundredth of a point. */
const grid = 128;

/** fpdf_edit.h. */
const imageObject = 3;

/** Where one letter stands on the page as seen. */
function letterBox(
  document: ReaderDocument,
  page: number,
  at: { readonly text: number; readonly index: number; readonly size: readonly [number, number] },
) {
  const { call, heap } = document.reader;
  return withMemory(heap, 48, (pointer): SeenRect | undefined => {
    const [left, right, bottom, top] = [pointer, pointer + 8, pointer + 16, pointer + 24];
    if (!call.FPDFText_GetCharBox(at.text, at.index, left, right, bottom, top)) return undefined;
    const corner = (x: number, y: number): readonly [number, number] => {
      const [width, height] = at.size;
      const [outX, outY] = [pointer + 32, pointer + 36];
      call.FPDF_PageToDevice(page, 0, 0, Math.round(width * grid), Math.round(height * grid), 0, x, y, outX, outY);
      return [heap.getValue(outX, 'i32') / grid, height - heap.getValue(outY, 'i32') / grid];
    };
    const [ax, ay] = corner(heap.getValue(left, 'double'), heap.getValue(bottom, 'double'));
    const [bx, by] = corner(heap.getValue(right, 'double'), heap.getValue(top, 'double'));
    return { x: Math.min(ax, bx), y: Math.min(ay, by), width: Math.abs(bx - ax), height: Math.abs(by - ay) };
  });
}

function joined(letters: readonly Letter[]): TextWord | undefined {
  const boxes = letters.flatMap(({ box }) => (box === undefined ? [] : [box]));
  const text = letters
    .map((letter) => letter.text)
    .join('')
    .normalize('NFC');
  if (boxes.length === 0 || text.trim() === '') return undefined;
  const x = Math.min(...boxes.map((box) => box.x));
  const y = Math.min(...boxes.map((box) => box.y));
  const width = Math.max(...boxes.map((box) => box.x + box.width)) - x;
  const height = Math.max(...boxes.map((box) => box.y + box.height)) - y;
  return { text, box: { x, y, width, height }, certainty: 1 };
}

/** A word ends at a space, or where the next letter stands more than a letter's height away. */
function wordsOf(letters: readonly Letter[]): readonly TextWord[] {
  const words: TextWord[] = [];
  let open: Letter[] = [];
  const end = () => {
    const word = joined(open);
    if (word !== undefined) words.push(word);
    open = [];
  };
  for (const letter of letters) {
    const last = open.at(-1)?.box;
    const { box } = letter;
    const far =
      last !== undefined &&
      box !== undefined &&
      (box.x - (last.x + last.width) > Math.max(box.height, last.height, 4) * 0.9 ||
        box.x + box.width < last.x - 2 ||
        Math.abs(box.y - last.y) > Math.max(box.height, last.height) * 1.5);
    if (/^\s*$/.test(letter.text)) end();
    else {
      if (far) end();
      open.push(letter);
    }
  }
  end();
  return words;
}

function lettersOf(document: ReaderDocument, page: number, size: readonly [number, number]): readonly Letter[] {
  const { call } = document.reader;
  const text = call.FPDFText_LoadPage(page);
  if (text === 0) return [];
  try {
    const count = Math.max(0, call.FPDFText_CountChars(text));
    return Array.from({ length: Math.min(count, 60_000) }, (_, index) => {
      const code = call.FPDFText_GetUnicode(text, index);
      // A hyphen at a line's end (U+FFFE, U+0002) is a hyphen; control characters are spaces.
      const letter =
        code === 0xfffe || code === 2 ? '-' : code < 32 ? ' ' : String.fromCodePoint(Math.min(code, 0x10ffff));
      return { text: letter, box: /\s/.test(letter) ? undefined : letterBox(document, page, { text, index, size }) };
    });
  } finally {
    call.FPDFText_ClosePage(text);
  }
}

/** The largest picture on the page: its share of the page, and its dots per inch. */
function largestPicture(document: ReaderDocument, page: number, size: readonly [number, number]) {
  const { call, heap } = document.reader;
  let found = { share: 0, dpi: 0 };
  const count = Math.min(call.FPDFPage_CountObjects(page), 400);
  for (let index = 0; index < count; index += 1) {
    const object = call.FPDFPage_GetObject(page, index);
    if (call.FPDFPageObj_GetType(object) !== imageObject) continue;
    withMemory(heap, 24, (pointer) => {
      const edges = [pointer, pointer + 4, pointer + 8, pointer + 12] as const;
      if (!call.FPDFPageObj_GetBounds(object, ...edges)) return;
      const [left = 0, bottom = 0, right = 0, top = 0] = edges.map((edge) => heap.getValue(edge, 'float'));
      const share = ((right - left) * (top - bottom)) / Math.max(1, size[0] * size[1]);
      call.FPDFImageObj_GetImagePixelSize(object, pointer + 16, pointer + 20);
      const pixels = heap.getValue(pointer + 16, 'i32') * heap.getValue(pointer + 20, 'i32');
      const dpi = 72 * Math.sqrt(pixels / Math.max(1, (right - left) * (top - bottom)));
      if (share > found.share) found = { share, dpi };
    });
  }
  return found;
}

/**
 * What was typed into a form's fields is no text of the page: it is written onto it, in the reader's memory alone.
 * fpdf_flatten.h: FLAT_NORMALDISPLAY.
 */
function withFieldsWritten(document: ReaderDocument, index: number): void {
  const { call } = document.reader;
  const page = call.FPDF_LoadPage(document.handle, index);
  if (page === 0) return;
  if (call.FPDFPage_GetAnnotCount(page) > 0) call.FPDFPage_Flatten(page, 0);
  call.FPDF_ClosePage(page);
}

/**
 * Reads the text layer of one page word by word, and says whether the page is a scan.
 * @returns undefined where the page can't be loaded
 */
export function readLayer(document: ReaderDocument, index: number): PageLayer | undefined {
  const { call } = document.reader;
  withFieldsWritten(document, index);
  const page = call.FPDF_LoadPage(document.handle, index);
  if (page === 0) return undefined;
  call.FORM_OnAfterLoadPage(page, document.form);
  try {
    const width = call.FPDF_GetPageWidthF(page);
    const height = call.FPDF_GetPageHeightF(page);
    const size = [width, height] as const;
    const picture = largestPicture(document, page, size);
    return {
      width,
      height,
      words: wordsOf(lettersOf(document, page, size)),
      scan: picture.share > 0.6,
      dpi: picture.share > 0.6 ? picture.dpi : undefined,
    };
  } finally {
    call.FORM_OnBeforeClosePage(page, document.form);
    call.FPDF_ClosePage(page);
  }
}
