import type { PDFDocumentProxy } from 'pdfjs-dist';
import workerAddress from 'pdfjs-dist/build/pdf.worker.min.mjs?url';
import { port } from '../client/port.ts';

/** A few files stay open: going back to a sheet is then instant. */
const keepOpen = 6;
const opened = new Map<string, Promise<PDFDocumentProxy>>();

async function open(ticket: string): Promise<PDFDocumentProxy> {
  const { getDocument, GlobalWorkerOptions } = await import('pdfjs-dist');
  GlobalWorkerOptions.workerSrc = workerAddress;
  return getDocument({
    url: port.address(ticket),
    // Ranges are served: a page of a large scan is shown without reading the rest.
    disableAutoFetch: true,
    disableStream: true,
    enableXfa: false,
    useWasm: false,
    cMapUrl: '/pdf/cmaps/',
    standardFontDataUrl: '/pdf/standard_fonts/',
    wasmUrl: '/pdf/wasm/',
    iccUrl: '/pdf/iccs/',
  }).promise;
}

/** The document behind a ticket, opened once. */
export function pdfBehind(ticket: string): Promise<PDFDocumentProxy> {
  const known = opened.get(ticket);
  if (known !== undefined) {
    opened.delete(ticket);
    opened.set(ticket, known);
    return known;
  }
  const fresh = open(ticket);
  opened.set(ticket, fresh);
  fresh.catch(() => opened.delete(ticket));
  const [oldest] = opened.keys();
  if (opened.size > keepOpen && oldest !== undefined) {
    const gone = opened.get(oldest);
    opened.delete(oldest);
    void gone?.then((document) => document.loadingTask.destroy()).catch(() => undefined);
  }
  return fresh;
}
