import { fileSource } from './byte-source.ts';
import { hasPage, openDocument, pageSize, type ReaderDocument } from './open-document.ts';
import { type PageSight, readPage } from './read-page.ts';

/** PDFium holds on to every stream it has loaded: after so many bytes of pages the document is opened afresh. */
const freshAfter = 48 * 1024 * 1024;

/** Reads the pages of one file in turn without piling up what it has read. */
export class PageReader {
  readonly #path: string;
  readonly #password: string;
  #document: ReaderDocument;
  #read = 0;

  private constructor(at: { readonly path: string; readonly password: string }, document: ReaderDocument) {
    this.#path = at.path;
    this.#password = at.password;
    this.#document = document;
  }

  /** Undefined where the file doesn't open. */
  static async open(path: string, password = ''): Promise<PageReader | undefined> {
    const outcome = await openDocument(fileSource(path), password);
    return outcome.ok ? new PageReader({ path, password }, outcome.document) : undefined;
  }

  get pageCount(): number {
    return this.#document.pageCount;
  }

  /** True where there is a page behind the number: a file may claim more pages than it has. */
  has(index: number): boolean {
    return hasPage(this.#document, index);
  }

  /** False for a page that is cropped to nothing: there is no picture of it to compare with. */
  shows(index: number): boolean {
    const { width, height } = pageSize(this.#document, index);
    return width > 0 && height > 0;
  }

  /**
   * Looks at a page.
   * @param bytes about how much of the file the page takes
   * @returns undefined where the page can't be read
   */
  async read(index: number, bytes: number): Promise<PageSight | undefined> {
    if (this.#read > freshAfter && !(await this.openAfresh())) return undefined;
    this.#read += bytes;
    return readPage(this.#document, index);
  }

  /** Forgets what was read, fonts included. False where the file no longer opens. */
  async openAfresh(): Promise<boolean> {
    const outcome = await openDocument(fileSource(this.#path), this.#password);
    if (!outcome.ok) return false;
    this.#document.close();
    this.#document = outcome.document;
    this.#read = 0;
    return true;
  }

  close(): void {
    this.#document.close();
  }
}
