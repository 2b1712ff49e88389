import { expect, it } from 'vitest';
import { forgetPdfium, isReaderFault, pdfium } from '../../core/reader/pdfium-module.ts';

it('after a fault the reader is started afresh, and works', async () => {
  const first = await pdfium();
  expect(await pdfium()).toBe(first);
  const fault: unknown = (() => {
    try {
      return first.call.FPDF_GetPageCount(0x7ffffff0);
    } catch (problem) {
      return problem;
    }
  })();
  expect(isReaderFault(fault)).toBe(true);
  expect(isReaderFault(new Error('something else'))).toBe(false);
  forgetPdfium();
  const second = await pdfium();
  expect(second).not.toBe(first);
  const fresh = second.call.FPDF_CreateNewDocument();
  expect(second.call.FPDF_GetPageCount(fresh)).toBe(0);
  second.call.FPDF_CloseDocument(fresh);
});
