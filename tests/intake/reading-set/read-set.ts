import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type ReadControl, readPages } from '../../../core/intake/ocr/read-pages.ts';
import type { PageText } from '../../../core/intake/reading/page-text.ts';
import { composeDocument, type SetDocument } from './compose.ts';
import { drawDocument } from './draw-document.ts';
import { scanDocument } from './scan.ts';

export interface SetText {
  readonly document: SetDocument;
  readonly pages: readonly PageText[];
}

/** Makes document `index` and reads its pages: as a scan, or with the text layer it was written with. */
export async function textOfDocument(
  index: number,
  at: { readonly folder: string; readonly reader?: ReadControl['reader']; readonly scanned: boolean },
): Promise<SetText> {
  const document = composeDocument(index);
  const clean = await drawDocument(document);
  const path = join(at.folder, `${index}${at.scanned ? '-scan' : ''}.pdf`);
  mkdirSync(at.folder, { recursive: true });
  writeFileSync(path, at.scanned ? await scanDocument(clean, index) : clean);
  try {
    return { document, pages: await readPages(path, `document ${index}`, { reader: at.reader }) };
  } finally {
    rmSync(path, { force: true });
  }
}

/** Words read before, kept beside the packages so that rules can be tried without waiting for the scans again. */
export function rememberedPages(path: string): readonly PageText[] | undefined {
  try {
    const pages: readonly PageText[] = JSON.parse(readFileSync(path, 'utf8'));
    return pages;
  } catch {
    return undefined;
  }
}
