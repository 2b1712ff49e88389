import { closeSync, fstatSync, openSync } from 'node:fs';
import { type Pdfium, pdfium } from '../../reader/pdfium-module.ts';
import { readFully } from '../link/syntax/byte-window.ts';

/** A branch of the outline as the reader sees it; `page` is -1 where it leads nowhere. */
export interface SeenBookmark {
  readonly title: string;
  readonly page: number;
  readonly children: readonly SeenBookmark[];
}

/** In points, as a page is seen. */
export interface PageSize {
  readonly width: number;
  readonly height: number;
}

export interface SeenLink {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly page: number;
}

/** What the independent reader says of a file. Nothing but the blocks it asks for comes into memory. */
export interface OpenedFile extends Disposable {
  readonly pages: number;
  /** Size in points as the reader turns and crops the page (UserUnit not applied). */
  sizeOf(page: number): PageSize;
  labelOf(page: number): string;
  textOf(page: number): string;
  linksOf(page: number): readonly SeenLink[];
  outline(): readonly SeenBookmark[];
}

/** Opens a file with PDFium; undefined where it refuses it. */
export async function openWithReader(path: string): Promise<OpenedFile | undefined> {
  const reader = await pdfium();
  const fd = openSync(path, 'r');
  const { heap, call } = reader;
  const read = heap.addFunction((_param = 0, position = 0, buffer = 0, size = 0) => {
    const target = Buffer.from(heap.HEAPU8.buffer, buffer >>> 0, size >>> 0);
    return readFully(fd, target, position >>> 0) === target.length ? 1 : 0;
  }, 'iiiii');
  // FPDF_FILEACCESS (fpdfview.h): length, function that reads a block, its parameter; four bytes each.
  const access = heap.wasmExports.malloc(12);
  heap.setValue(access, fstatSync(fd).size, 'i32');
  heap.setValue(access + 4, read, 'i32');
  heap.setValue(access + 8, 0, 'i32');
  const handle = call.FPDF_LoadCustomDocument(access, '');
  const release = (): void => {
    if (handle !== 0) call.FPDF_CloseDocument(handle);
    heap.wasmExports.free(access);
    heap.removeFunction(read);
    closeSync(fd);
  };
  if (handle !== 0) return new ReaderFile(reader, handle, release);
  release();
  return undefined;
}

/** Siblings or levels beyond this are a circle. */
const mostBookmarks = 100_000;

class ReaderFile implements OpenedFile {
  readonly pages: number;
  readonly #reader: Pdfium;
  readonly #handle: number;
  readonly #release: () => void;

  constructor(reader: Pdfium, handle: number, release: () => void) {
    this.#reader = reader;
    this.#handle = handle;
    this.#release = release;
    this.pages = reader.call.FPDF_GetPageCount(handle);
  }

  [Symbol.dispose](): void {
    this.#release();
  }

  sizeOf(page: number): PageSize {
    return this.#withMemory(8, (at) => {
      const { call, heap } = this.#reader;
      if (!call.FPDF_GetPageSizeByIndexF(this.#handle, page, at)) return { width: 0, height: 0 };
      return { width: heap.getValue(at, 'float'), height: heap.getValue(at + 4, 'float') };
    });
  }

  labelOf(page: number): string {
    return this.#wideText((at, room) => this.#reader.call.FPDF_GetPageLabel(this.#handle, page, at, room));
  }

  textOf(page: number): string {
    const { call } = this.#reader;
    return this.#withPage(page, (loaded) => {
      const text = call.FPDFText_LoadPage(loaded);
      try {
        const count = Math.max(0, call.FPDFText_CountChars(text));
        return this.#withMemory((count + 1) * 2, (at) => {
          const written = call.FPDFText_GetText(text, 0, count, at);
          return this.#bytes(at, Math.max(0, written - 1) * 2).toString('utf16le');
        });
      } finally {
        call.FPDFText_ClosePage(text);
      }
    });
  }

  linksOf(page: number): readonly SeenLink[] {
    const { call, heap } = this.#reader;
    return this.#withPage(page, (loaded) =>
      this.#withMemory(24, (at) => {
        const links: SeenLink[] = [];
        heap.setValue(at, 0, 'i32');
        while (call.FPDFLink_Enumerate(loaded, at, at + 4)) {
          const link = heap.getValue(at + 4, 'i32');
          const dest = call.FPDFLink_GetDest(this.#handle, link);
          // FS_RECTF: left, top, right, bottom.
          if (!call.FPDFLink_GetAnnotRect(link, at + 8)) continue;
          const [left = 0, top = 0, right = 0, bottom = 0] = [8, 12, 16, 20].map((o) => heap.getValue(at + o, 'float'));
          const to = dest === 0 ? -1 : call.FPDFDest_GetDestPageIndex(this.#handle, dest);
          links.push({
            x: left,
            y: Math.min(top, bottom),
            width: right - left,
            height: Math.abs(top - bottom),
            page: to,
          });
        }
        return links;
      }),
    );
  }

  outline(): readonly SeenBookmark[] {
    return this.#level(0, { left: mostBookmarks });
  }

  #level(parent: number, budget: { left: number }): readonly SeenBookmark[] {
    const { call } = this.#reader;
    const seen: SeenBookmark[] = [];
    let here = call.FPDFBookmark_GetFirstChild(this.#handle, parent);
    while (here !== 0 && budget.left > 0) {
      budget.left -= 1;
      const bookmark = here;
      const dest = call.FPDFBookmark_GetDest(this.#handle, bookmark);
      seen.push({
        title: this.#wideText((at, room) => call.FPDFBookmark_GetTitle(bookmark, at, room)),
        page: dest === 0 ? -1 : call.FPDFDest_GetDestPageIndex(this.#handle, dest),
        children: this.#level(bookmark, budget),
      });
      here = call.FPDFBookmark_GetNextSibling(this.#handle, bookmark);
    }
    return seen;
  }

  #withPage<T>(page: number, use: (loaded: number) => T): T {
    const { call } = this.#reader;
    const loaded = call.FPDF_LoadPage(this.#handle, page);
    if (loaded === 0) throw new Error(`The PDF reader can't open page ${page + 1}.`);
    try {
      return use(loaded);
    } finally {
      call.FPDF_ClosePage(loaded);
    }
  }

  /** UTF-16LE text by the two-call custom of the reader: first how long, then the text with a closing zero. */
  #wideText(get: (at: number, room: number) => number): string {
    const room = get(0, 0);
    if (room <= 2) return '';
    return this.#withMemory(room, (at) => {
      get(at, room);
      return this.#bytes(at, room - 2).toString('utf16le');
    });
  }

  #bytes(at: number, length: number): Buffer {
    return Buffer.from(this.#reader.heap.HEAPU8.slice(at, at + length));
  }

  #withMemory<T>(size: number, use: (at: number) => T): T {
    const { wasmExports } = this.#reader.heap;
    const at = wasmExports.malloc(size);
    if (at === 0) throw new Error('The PDF reader ran out of memory.');
    try {
      return use(at);
    } finally {
      wasmExports.free(at);
    }
  }
}
