import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type ReadControl, readPages } from '../../../core/intake/ocr/read-pages.ts';
import type { PageText } from '../../../core/intake/reading/page-text.ts';
import { suggestCuts } from '../../../core/intake/reading/suggest-cuts.ts';
import type { Practice } from '../../../core/vocabulary/practice.ts';
import { type Bundle, type BundlePage, blankPage } from './bundles.ts';
import { drawDocument } from './draw-document.ts';
import { scanDocument } from './scan.ts';

export interface CutsAt {
  readonly folder: string;
  readonly practice: Practice;
  /** Scans of the pages are read; else the text they were written with. */
  readonly reader?: ReadControl['reader'];
  /** Words of a document of the set that were read before. */
  readonly remembered?: ((index: number) => readonly PageText[] | undefined) | undefined;
}

async function wordsOf(page: BundlePage, n: number, at: CutsAt): Promise<PageText> {
  if (page.blank) return blankPage(n);
  const before = page.ofSet ? at.remembered?.(page.document.index)?.[0] : undefined;
  if (before !== undefined) return { ...before, page: n };
  mkdirSync(at.folder, { recursive: true });
  const path = join(at.folder, `${process.pid}-page.pdf`);
  const clean = await drawDocument(page.document);
  writeFileSync(path, at.reader === undefined ? clean : await scanDocument(clean, page.document.index * 31 + n));
  try {
    const [read] = await readPages(path, 'page', { reader: at.reader });
    if (read === undefined) throw new Error('no page');
    return { ...read, page: n };
  } finally {
    rmSync(path, { force: true });
  }
}

export interface CutsJudged {
  /** Every cut right, none too many. */
  readonly right: boolean;
  readonly missed: readonly number[];
  readonly tooMany: readonly { readonly page: number; readonly because: string | undefined }[];
  /** Of the papers found rightly, how many were named by their kind; of how many. */
  readonly named: number;
  readonly papers: number;
}

/** Reads a bundle's pages and holds the suggested cuts against where its papers begin. */
export async function judgeCuts(bundle: Bundle, at: CutsAt): Promise<CutsJudged> {
  const pages: PageText[] = [];
  for (const [n, page] of bundle.pages.entries()) pages.push(await wordsOf(page, n, at));
  const cuts = suggestCuts(pages, at.practice, '2026-07-15');
  const found = cuts.length === 0 ? [0] : cuts.map(({ from }) => from);
  const missed = bundle.begins.filter((page) => !found.includes(page));
  const tooMany = cuts
    .filter(({ from }) => !bundle.begins.includes(from))
    .map(({ from, because }) => ({ page: from, because }));
  const named = bundle.begins.filter((page, n) =>
    cuts.some(({ from, kind }) => from === page && kind === bundle.kinds[n]),
  );
  return {
    right: missed.length === 0 && tooMany.length === 0,
    missed,
    tooMany,
    named: named.length,
    papers: bundle.begins.length,
  };
}
