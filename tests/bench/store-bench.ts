import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createLot, type Lot, openLot } from '../../core/store/index.ts';
import type { PageFacts } from '../../core/vocabulary/lot.ts';
import type { Practice } from '../../core/vocabulary/practice.ts';
import { queries, writer } from './words.ts';

export interface StoreBench {
  /** Milliseconds of a first `view()` after opening. */
  readonly view400Ms: number;
  readonly view10000Ms: number;
  /** Milliseconds of `view()` right after a change. */
  readonly viewAfterChange400Ms: number;
  readonly searchPages: number;
  readonly searchMedianMs: number;
  readonly searchP95Ms: number;
  readonly searchWorstMs: number;
  readonly keepPagesPerSecond: number;
}

const holder = { program: 'bench', host: 'bench', pid: process.pid };
const practice: Practice = {
  title: 'Bench',
  layers: [],
  offices: {},
  questions: {},
  events: {},
  papers: {},
  errands: {},
  agreements: {},
  duties: {},
  holds: {},
  holidays: [],
};

function sheet(page: number, text: string): PageFacts {
  const clearStrips = [{ x: 36, y: 12, width: 540, height: 14 }];
  return { page, width: 612, height: 792, clearStrips, openSaves: 0, extraRestores: 0, bytes: 40_000, text };
}

/** Keeps one file of so many pages as so many papers. */
async function keepFile(
  lot: Lot,
  n: number,
  texts: readonly string[],
): Promise<{ original: string; rendition: string }> {
  const path = lot.temporaryPath();
  writeFileSync(path, `file ${n}`);
  const { sha256: original } = await lot.takeInOriginal(path, `scan-${n}.pdf`);
  const made = `pages of ${n}`;
  writeFileSync(path, made);
  const rendition = createHash('sha256').update(made).digest('hex');
  const pages = texts.map((text, i) => sheet(i, text));
  const facts = { source: original, recipe: 'bench', tool: 'bench', rung: 'normalised', sealed: false, notes: [] };
  await lot.keepRendition(path, { rendition: { ...facts, pages }, sha256: rendition, bytes: made.length });
  return { original, rendition };
}

function keepPapers(lot: Lot, count: number, file: { original: string; rendition: string }): void {
  lot.act(`${count} papers`, () => {
    for (let i = 0; i < count; i += 1) {
      const { edition } = lot.keepEdition({
        kind: 'other',
        title: `Paper ${i}`,
        parts: [{ rendition: file.rendition, pages: [i % 4] }],
        originals: [file.original],
        received: '2026-04-14',
        issued: '2026-03-01',
        number: `P-${i}`,
        facts: [
          { fact: 'bedrooms', value: { sort: 'count', value: 3 } },
          { fact: 'parcel', value: { sort: 'parcel number', value: '041-22-0070' } },
          { fact: 'address', value: { sort: 'address', value: '418 Heron Lane' } },
        ],
        marks: ['signed', 'dated'],
      });
      lot.recordStanding(edition, { office: 'plan-review', word: 'received', day: '2026-04-14' });
    }
  });
}

function timed(work: () => unknown): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

async function benchView(root: string, papers: number): Promise<{ first: number; again: number }> {
  const folder = join(root, `view-${papers}`);
  const lot = createLot(folder, { title: 'Bench', practice, layers: [], day: '2026-04-14', holder });
  keepPapers(lot, papers, await keepFile(lot, 0, ['one', 'two', 'three', 'four']));
  lot.close();
  using opened = openLot(folder, { holder });
  const first = timed(() => opened.view());
  opened.setTitle('Changed');
  return { first, again: timed(() => opened.view()) };
}

async function benchSearch(root: string, pages: number): Promise<{ times: readonly number[]; keepRate: number }> {
  const lot = createLot(join(root, 'search'), { title: 'Bench', practice, layers: [], day: '2026-04-14', holder });
  const write = writer(7);
  let keeping = 0;
  for (let n = 0; n < pages / 100; n += 1) {
    const texts = Array.from({ length: 100 }, write);
    const start = performance.now();
    const { original, rendition } = await keepFile(lot, n, texts);
    const title = `Bundle ${n}`;
    lot.keepEdition({ kind: 'other', title, parts: [{ rendition }], originals: [original], received: '2026-04-14' });
    keeping += performance.now() - start;
  }
  const asked = queries();
  for (const query of asked.slice(0, 10)) lot.search(query);
  const times = asked.map((query) => timed(() => lot.search(query))).toSorted((a, b) => a - b);
  lot.close();
  return { times, keepRate: pages / (keeping / 1000) };
}

/** Views of 400 and 10,000 papers, and 400 questions over 50,000 pages, on real lot folders in the temporary folder. */
export async function benchStore(): Promise<StoreBench> {
  const root = mkdtempSync(join(tmpdir(), 'lotfile-store-bench-'));
  try {
    const small = await benchView(root, 400);
    const large = await benchView(root, 10_000);
    const searchPages = 50_000;
    const { times, keepRate } = await benchSearch(root, searchPages);
    return {
      view400Ms: small.first,
      viewAfterChange400Ms: small.again,
      view10000Ms: large.first,
      searchPages,
      searchMedianMs: times[Math.floor(times.length / 2)] ?? Number.NaN,
      searchP95Ms: times[Math.floor(times.length * 0.95)] ?? Number.NaN,
      searchWorstMs: times.at(-1) ?? Number.NaN,
      keepPagesPerSecond: keepRate,
    };
  } finally {
    rmSync(root, { recursive: true, force: true });
  }
}
