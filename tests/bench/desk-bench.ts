import { createHash } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openDesk } from '../../core/desk/desk.ts';
import type { RequestArgument, RequestName } from '../../core/desk/door.ts';
import { commonLayers } from '../../core/desk/templates.ts';
import { figures } from '../../core/figures/index.ts';
import { readPractice } from '../../core/practice/index.ts';
import { createLot, type Lot } from '../../core/store/index.ts';
import { addDays, type Day } from '../../core/vocabulary/days.ts';
import type { PageFacts } from '../../core/vocabulary/lot.ts';

const today: Day = '2026-04-14';
const holder = { program: 'bench', host: 'bench', pid: process.pid };
const words = 'Onsite sewage construction authorization for three bedrooms, parcel 041-22-0070, Heron Lane. '.repeat(
  12,
);

function sheet(page: number): PageFacts {
  const clearStrips = [{ x: 36, y: 12, width: 540, height: 14 }];
  const text = `${words} Sheet ${page}.`;
  return { page, width: 612, height: 792, clearStrips, openSaves: 0, extraRestores: 0, bytes: 40_000, text };
}

async function keepFile(lot: Lot, n: number, pages: number): Promise<{ original: string; rendition: string }> {
  const path = lot.temporaryPath();
  writeFileSync(path, `%PDF-1.7 file ${n}`);
  const { sha256: original } = await lot.takeInOriginal(path, `scan-${n}.pdf`);
  const made = `%PDF-1.7 pages of ${n}`;
  writeFileSync(path, made);
  const rendition = createHash('sha256').update(made).digest('hex');
  const facts = { source: original, recipe: 'bench', tool: 'bench', rung: 'normalised', sealed: false, notes: [] };
  const sheets = Array.from({ length: pages }, (_, page) => sheet(page));
  await lot.keepRendition(path, { rendition: { ...facts, pages: sheets }, sha256: rendition, bytes: made.length });
  return { original, rendition };
}

/** Every kind of the practice that stands alone, firms with their certificates, and loose papers up to the count. */
async function keepPapers(lot: Lot, count: number): Promise<void> {
  const kinds = Object.values(lot.practice().papers);
  const firms = Array.from({ length: 20 }, (_, n) =>
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
    .map((kind) => ({ kind: kind.id, title: kind.title, subject: undefined }));
  const some = [...single.filter((_, n) => n % 3 !== 2), ...each];
  const loose = Array.from({ length: count - some.length }, (_, n) => ({
    kind: 'other',
    title: `Loose paper ${n}`,
    subject: undefined,
  }));
  for (const [n, paper] of [...some, ...loose].entries()) {
    const file = await keepFile(lot, n, 3);
    const issued = addDays(today, -((n * 7) % 300));
    const marks = ['signed', 'dated'];
    const number = `P-${n}`;
    lot.keepEdition({
      ...paper,
      parts: [{ rendition: file.rendition }],
      originals: [file.original],
      received: issued,
      issued,
      number,
      marks,
    });
  }
}

async function notePhotos(lot: Lot, count: number): Promise<void> {
  const files: string[] = [];
  for (let n = 0; n < 300; n += 1) {
    const path = lot.temporaryPath();
    writeFileSync(path, `\u00ff photo ${n}`);
    files.push((await lot.takeInOriginal(path, `IMG_${n}.JPG`)).sha256);
  }
  lot.act(`${count} photos`, () => {
    for (let n = 0; n < count; n += 1) {
      lot.addRecord({
        sort: 'photo',
        title: `Wall ${n}`,
        day: addDays(today, -(n % 200)),
        trade: 'framing',
        file: files[n % files.length],
      });
    }
  });
}

/** One request of a screen: milliseconds, and bytes of JSON its answer has. */
export interface DeskRow {
  readonly asked: string;
  readonly afterChangeMs: number;
  readonly againMs: number;
  readonly bytes: number;
}

type Ask = { [N in RequestName]: readonly [N, RequestArgument<N>] }[RequestName];

const asks: readonly Ask[] = [
  ['today', {}],
  ['way', {}],
  ['lapses', { within: 60 }],
  ['inspections', {}],
  ['trades', {}],
  ['costs', {}],
  ['errand', { errand: 'permit-apply' }],
  ['papers', {}],
  ['papers', { wanted: true }],
  ['pages', { edition: 'P-0' }],
  ['with-offices', {}],
  ['read-lot', {}],
  ['table', {}],
  ['amendable', { errand: 'permit-apply' }],
  ['amendable', { paper: 'plans' }],
  ['practice', {}],
  ['practice-words', {}],
  ['find', { text: 'sewage' }],
  ['find', { text: 'septic permit' }],
  ['history', { limit: 100 }],
  ['packets', {}],
  ['handovers', {}],
  ['records', {}],
  ['plan', { errand: 'permit-apply' }],
];

/**
 * Each request a screen asks, in milliseconds, on a lot of 400 papers and 3,000 photo records: right after a change
 * (everything read anew; the middle of five) and asked again; and how many bytes of JSON its answer has.
 */
export async function benchDesk(root: string): Promise<readonly DeskRow[]> {
  const folder = join(root, 'desk-lot');
  const layers = commonLayers();
  const practice = readPractice(layers, { figures: Object.keys(figures) });
  const made = createLot(folder, { title: 'Bench', practice, layers, day: today, holder });
  await keepPapers(made, 400);
  await notePhotos(made, 3000);
  for (let n = 0; n < 40; n += 1) writeFileSync(join(folder, 'table', `scan ${n}.pdf`), `%PDF-1.7 file ${n % 3} `);
  made.close();
  await using desk = openDesk({ program: 'bench', today: () => today });
  const { lot } = await desk.ask('open-lot', { folder: desk.tickets.offer(folder) });
  const timed = async ([name, argument]: Ask): Promise<number> => {
    const begun = performance.now();
    await desk.askUntyped(name, argument, { lot });
    return performance.now() - begun;
  };
  const rows: DeskRow[] = [];
  for (const ask of asks) {
    const after: number[] = [];
    for (let n = 0; n < 5; n += 1) {
      await desk.ask('answer', { question: 'lender', answer: n % 2 === 0 ? 'yes' : 'no' }, { lot });
      after.push(await timed(ask));
    }
    const again = await timed(ask);
    const bytes = JSON.stringify(await desk.askUntyped(ask[0], ask[1], { lot })).length;
    rows.push({
      asked: `${ask[0]} ${JSON.stringify(ask[1])}`,
      afterChangeMs: after.toSorted((a, b) => a - b)[2] ?? 0,
      againMs: again,
      bytes,
    });
  }
  return rows;
}
