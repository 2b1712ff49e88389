import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { createLot, type Holder, type Lot, type NewEdition, type OpenOptions } from '../../core/store/index.ts';
import type { LotfileError } from '../../core/vocabulary/errors.ts';
import type { EditionId, PageFacts, PaperId } from '../../core/vocabulary/lot.ts';
import type { Office, PaperKind, Practice } from '../../core/vocabulary/practice.ts';

export const holder: Holder = { program: 'the test', host: hostname(), pid: process.pid };
export const open: OpenOptions = { holder };

export function office(id: string, title: string): Office {
  return { id, title, sort: 'health', exists: true, basis: { on: 'common practice' } };
}

function kind(id: string, title: string, from: string): PaperKind {
  const plain = { facts: {}, looksLike: [], clocks: [], madeFrom: [], private: false };
  return { id, title, from, ...plain, basis: { on: 'common practice' } };
}

export const practice: Practice = {
  title: 'Brindlemoor County practice',
  layers: ['common'],
  offices: {
    'environmental-health': office('environmental-health', 'Brindlemoor Environmental Health'),
    recorder: office('recorder', 'Register of Deeds'),
  },
  questions: {},
  events: {},
  papers: {
    'septic-permit': kind('septic-permit', 'Septic permit', 'environmental-health'),
    deed: kind('deed', 'Deed', 'recorder'),
  },
  errands: {},
  agreements: {},
  duties: {},
  holds: {},
  holidays: [],
};

/** A folder of this test's own, gone when it is finished. */
export function newFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'lotfile-store-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** A real lot in a folder of this test's own, closed when it is finished. */
export function newLot(folder = join(newFolder(), 'lot')): Lot {
  const layers = [{ name: 'common', text: 'title: Brindlemoor County practice\n' }];
  const lot = createLot(folder, { title: 'Heron Lane', practice, layers, day: '2026-04-14', holder });
  onTestFinished(() => lot.close());
  return lot;
}

export function sha256(text: string): string {
  return createHash('sha256').update(text).digest('hex');
}

export function page(number: number, text: string, size: readonly [number, number] = [612, 792]): PageFacts {
  const clearStrips = [{ x: 36, y: 12, width: 540, height: 14 }];
  const [width, height] = size;
  return { page: number, width, height, clearStrips, openSaves: 1, extraRestores: 0, bytes: 40, text };
}

export interface KeptFiles {
  readonly original: string;
  readonly rendition: string;
}

/** Takes a real file into the lot and keeps pages of it; the store never looks into either. */
export async function keepFile(
  lot: Lot,
  name: string,
  pages: readonly PageFacts[],
  sealed = false,
  more: { readonly recipe?: string } = {},
): Promise<KeptFiles> {
  const path = lot.temporaryPath();
  writeFileSync(path, `bytes of ${name}`);
  const { sha256: original } = await lot.takeInOriginal(path, name);
  const sound = `sound pages of ${name}`;
  writeFileSync(path, sound);
  const about = { source: original, recipe: more.recipe ?? 'recipe 1', tool: 'tool 1', rung: 'normalised', sealed };
  const rendition = { ...about, notes: [`A script in ${name} was dropped.`], pages };
  await lot.keepRendition(path, { rendition, sha256: sha256(sound), bytes: sound.length });
  return { original, rendition: sha256(sound) };
}

export function edition(kept: KeptFiles, more: Partial<NewEdition> = {}): NewEdition {
  return {
    kind: 'septic-permit',
    title: 'Septic permit',
    parts: [{ rendition: kept.rendition }],
    originals: [kept.original],
    received: '2026-04-14',
    ...more,
  };
}

/** A septic permit of two pages with a number, facts and marks. */
export async function keepPermit(
  lot: Lot,
  more: Partial<NewEdition> = {},
): Promise<{ paper: PaperId; edition: EditionId; files: KeptFiles }> {
  const pages = [
    page(0, 'Onsite sewage permit for Hạnh Nguyễn Lindqvist'),
    page(1, 'Three bedrooms, parcel 041-22-0070'),
  ];
  const files = await keepFile(lot, 'septic scan.pdf', pages);
  const kept = lot.keepEdition(
    edition(files, {
      number: 'SP-2026-117',
      issued: '2026-01-20',
      facts: [
        { fact: 'bedrooms', value: { sort: 'count', value: 3 }, page: 1, place: { x: 1, y: 2, width: 3, height: 4 } },
      ],
      marks: ['signed', 'dated'],
      ...more,
    }),
  );
  return { ...kept, files };
}

/** For `toThrow`: an error of this code whose sentence matches. */
export function told(code: LotfileError['code'], message: RegExp): object {
  return { code, message: { asymmetricMatch: (said: unknown) => message.test(String(said)) } };
}
