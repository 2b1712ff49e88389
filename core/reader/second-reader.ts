import { readFileSync, statSync } from 'node:fs';
import type { PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** What another reader, of other hands than the first, finds in a file. */
export interface SecondSight {
  readonly pageCount: number;
  /** Of each page looked at, in order: letters and figures of its text, and annotations. */
  readonly pages: readonly { readonly letters: number; readonly annotations: number }[];
}

/** Files above this are not looked at: it reads them whole into memory. */
const largest = 64 * 1024 * 1024;
const mostPages = 200;

async function lookAt(document: PDFDocumentProxy, number: number): Promise<SecondSight['pages'][number]> {
  const page = await document.getPage(number);
  try {
    const { items } = await page.getTextContent();
    const text = items.map((item) => ('str' in item ? item.str : '')).join('');
    const annotations = await page.getAnnotations();
    return { letters: text.replace(/[^\p{L}\p{N}]/gu, '').length, annotations: annotations.length };
  } finally {
    page.cleanup();
  }
}

/**
 * Looks at a file with pdf.js: text and annotations, no pictures. Used where PDFium itself wrote the pages, so that it
 * is not the only one to judge them.
 * @returns undefined where this reader has no opinion: it can't open the file or one of its pages, or it is too large
 */
export async function secondSight(path: string, password = ''): Promise<SecondSight | undefined> {
  if (statSync(path).size > largest) return undefined;
  // A large library, and seldom asked.
  const { getDocument, VerbosityLevel } = await import('pdfjs-dist/legacy/build/pdf.mjs');
  const task = getDocument({
    data: new Uint8Array(readFileSync(path)),
    password,
    verbosity: VerbosityLevel.ERRORS,
    useSystemFonts: false,
    disableFontFace: true,
    useWorkerFetch: false,
  });
  try {
    const document = await task.promise;
    const pages: SecondSight['pages'][number][] = [];
    for (let number = 1; number <= Math.min(mostPages, document.numPages); number += 1) {
      pages.push(await lookAt(document, number));
    }
    return { pageCount: document.numPages, pages };
  } catch {
    return undefined;
  } finally {
    await task.destroy();
  }
}
