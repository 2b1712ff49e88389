import { useEffect, useState } from 'react';
import { pdfBehind } from '../../kit/pdf-pages.ts';
import type { ReaderPage } from '../papers/reader-pages.ts';

export type PdfLook =
  | { readonly is: 'opening' }
  | { readonly is: 'open'; readonly pages: readonly ReaderPage[] }
  | { readonly is: 'shut'; readonly locked: boolean };

/** Sizes are asked for page by page up to here; the rest is taken to be like the last: only its place hangs on it. */
const measured = 60;

async function look(ticket: string): Promise<PdfLook> {
  const document = await pdfBehind(ticket);
  const pages: ReaderPage[] = [];
  let size = { width: 612, height: 792 };
  for (let page = 0; page < document.numPages; page += 1) {
    if (page < measured) {
      const { width, height } = (await document.getPage(page + 1)).getViewport({ scale: 1 });
      size = { width, height };
    }
    pages.push({ ticket, page, ...size, turn: 0 });
  }
  return { is: 'open', pages };
}

/** The pages of a PDF that is not kept yet, as the window's own reader sees them. */
export function usePdfLook(ticket: string): PdfLook {
  const [seen, see] = useState<PdfLook>({ is: 'opening' });
  useEffect(() => {
    let gone = false;
    see({ is: 'opening' });
    look(ticket).then(
      (found) => gone || see(found),
      (error: unknown) =>
        gone || see({ is: 'shut', locked: error instanceof Error && error.name === 'PasswordException' }),
    );
    return () => {
      gone = true;
    };
  }, [ticket]);
  return seen;
}
