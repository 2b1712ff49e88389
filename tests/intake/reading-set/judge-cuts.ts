import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type ReadControl, readPages } from '../../../core/intake/ocr/read-pages.ts';
import type { PageText } from '../../../core/intake/reading/page-text.ts';
import type { SuggestedCut } from '../../../core/intake/reading/reading-model.ts';
import { suggestCuts } from '../../../core/intake/reading/suggest-cuts.ts';
import type { Practice } from '../../../core/vocabulary/practice.ts';
import { type Bundle, type BundlePage, blankPage, drawingPage } from './bundles.ts';
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
  if (page.sort === 'blank') return blankPage(n);
  if (page.sort === 'drawing') return drawingPage(n);
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
  /** Every part begins and ends where a paper does, none too many, and every page with ink lies in just one. */
  readonly right: boolean;
  readonly missed: readonly number[];
  readonly tooMany: readonly { readonly page: number; readonly because: string | undefined }[];
  /** Pages at which a paper ends that was found, but not to its end. */
  readonly ends: readonly number[];
  /** Pages with ink in no part, or in several. */
  readonly astray: readonly number[];
  /** Of the papers found rightly, how many were named by their kind; of how many. */
  readonly named: number;
  readonly papers: number;
}

/** Holds parts against where the papers of a bundle begin and end, and every page with ink against the parts. */
export function judgeParts(bundle: Bundle, cuts: readonly SuggestedCut[]): CutsJudged {
  const { begins, ends, kinds } = bundle;
  const at = (page: number): SuggestedCut | undefined => cuts.find(({ from }) => from === page);
  const missed = begins.filter((page) => at(page) === undefined);
  const tooMany = cuts.flatMap(({ from, because }) => (begins.includes(from) ? [] : [{ page: from, because }]));
  const wrongEnds = ends.filter((page, n) => {
    const cut = at(begins[n] ?? -1);
    return cut !== undefined && cut.to !== page;
  });
  const astray = bundle.pages.flatMap(({ sort }, page) => {
    const parts = cuts.filter(({ from, to }) => from <= page && page <= to);
    return sort === 'blank' || parts.length === 1 ? [] : [page];
  });
  return {
    right: [missed, tooMany, wrongEnds, astray].every(({ length }) => length === 0),
    missed,
    tooMany,
    ends: wrongEnds,
    astray,
    named: begins.filter((page, n) => at(page)?.kind === kinds[n]).length,
    papers: begins.length,
  };
}

/** Reads a bundle's pages and holds the suggested parts against its papers. */
export async function judgeCuts(bundle: Bundle, at: CutsAt): Promise<CutsJudged> {
  const pages: PageText[] = [];
  for (const [n, page] of bundle.pages.entries()) pages.push(await wordsOf(page, n, at));
  return judgeParts(bundle, suggestCuts(pages, at.practice, '2026-07-15'));
}
