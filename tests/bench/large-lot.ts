import { createHash } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { commonLayers } from '../../core/desk/templates.ts';
import { figures } from '../../core/figures/index.ts';
import { readPractice } from '../../core/practice/index.ts';
import { createLot, type Lot, type NewEdition } from '../../core/store/index.ts';
import { addDays, type Day } from '../../core/vocabulary/days.ts';
import type { PageFacts } from '../../core/vocabulary/lot.ts';
import { writer } from './words.ts';

export interface LargeLot {
  readonly papers: number;
  readonly records: number;
  readonly pages: number;
  readonly today: Day;
}

const pagesPerFile = 100;

async function keepFile(
  lot: Lot,
  n: number,
  texts: readonly string[],
): Promise<{ original: string; rendition: string }> {
  const path = lot.temporaryPath();
  writeFileSync(path, `%PDF-1.7 file ${n}`);
  const { sha256: original } = await lot.takeInOriginal(path, `scan-${n}.pdf`);
  const made = `%PDF-1.7 pages of ${n}`;
  writeFileSync(path, made);
  const rendition = createHash('sha256').update(made).digest('hex');
  const clearStrips = [{ x: 36, y: 12, width: 540, height: 14 }];
  const pages = texts.map((text, page): PageFacts => {
    return { page, width: 612, height: 792, clearStrips, openSaves: 0, extraRestores: 0, bytes: 40_000, text };
  });
  const about = { source: original, recipe: 'bench', tool: 'bench', rung: 'normalised', sealed: false, notes: [] };
  await lot.keepRendition(path, { rendition: { ...about, pages }, sha256: rendition, bytes: made.length });
  return { original, rendition };
}

type Titled = Pick<NewEdition, 'kind' | 'title' | 'subject'>;

/** Every kind that stands alone, forty firms with their certificates, several editions of each; the rest is loose. */
function titles(lot: Lot, { papers, today }: LargeLot): readonly Titled[] {
  const kinds = Object.values(lot.practice().papers);
  const firms = Array.from({ length: 40 }, (_, n) =>
    lot.addSubject({
      sort: 'engagement',
      title: `Firm ${n}`,
      firm: `Firm ${n}`,
      trade: 'framing',
      from: addDays(today, -n),
    }),
  );
  const each = kinds
    .filter((kind) => kind.each === 'engagement')
    .flatMap((kind) => firms.map((subject) => ({ kind: kind.id, title: kind.title, subject })));
  const single = kinds
    .filter((kind) => kind.each === undefined && kind.id !== 'other')
    .map((kind) => ({ kind: kind.id, title: kind.title }));
  const some = [...single.filter((_, n) => n % 3 !== 2), ...each].slice(0, papers);
  const loose = Array.from({ length: papers - some.length }, (_, n) => ({ kind: 'other', title: `Loose paper ${n}` }));
  return [...some, ...loose];
}

async function keepPapers(lot: Lot, size: LargeLot): Promise<void> {
  const all = titles(lot, size);
  const perPaper = Math.floor(size.pages / size.papers);
  const perFile = Math.floor(pagesPerFile / perPaper);
  const write = writer(7);
  for (let n = 0; n * perFile < all.length; n += 1) {
    const { original, rendition } = await keepFile(lot, n, Array.from({ length: pagesPerFile }, write));
    lot.act(`Papers of file ${n}`, () => {
      for (const [k, paper] of all.slice(n * perFile, (n + 1) * perFile).entries()) {
        const issued = addDays(size.today, -((n * 7 + k) % 300));
        const pages = Array.from({ length: perPaper }, (_, page) => k * perPaper + page);
        const facts = [{ fact: 'parcel', value: { sort: 'parcel number', value: '041-22-0070' } }] as const;
        const number = `P-${n * perFile + k}`;
        const marks = ['signed', 'dated'];
        const parts = [{ rendition, pages }];
        lot.keepEdition({ ...paper, parts, originals: [original], received: issued, issued, number, marks, facts });
      }
    });
  }
}

async function noteRecords(lot: Lot, { records, today }: LargeLot): Promise<void> {
  const files: string[] = [];
  for (let n = 0; n < 300; n += 1) {
    const path = lot.temporaryPath();
    writeFileSync(path, `\u00ff photo ${n}`);
    files.push((await lot.takeInOriginal(path, `IMG_${n}.JPG`)).sha256);
  }
  lot.act(`${records} records`, () => {
    for (let n = 0; n < records; n += 1) {
      const sort = n % 5 === 0 ? 'receipt' : 'photo';
      const file = files[n % files.length];
      lot.addRecord({
        sort,
        title: `Wall ${n}`,
        day: addDays(today, -(n % 400)),
        trade: 'framing',
        place: `Room ${n % 12}`,
        file,
      });
    }
  });
}

/** A lot as large as a house of many years may leave it, on a real disk. */
export async function makeLargeLot(folder: string, size: LargeLot): Promise<void> {
  const layers = commonLayers();
  const practice = readPractice(layers, { figures: Object.keys(figures) });
  const holder = { program: 'bench', host: 'bench', pid: process.pid };
  using lot = createLot(folder, { title: 'Bench', practice, layers, day: size.today, holder });
  await keepPapers(lot, size);
  await noteRecords(lot, size);
}
