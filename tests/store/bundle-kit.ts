import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createLot, type Lot } from '../../core/store/index.ts';
import { holder, practice, sha256 } from './lot-in-folder.ts';

export { holder } from './lot-in-folder.ts';
export const day = '2026-04-14' as const;

export interface LotInFolder {
  readonly lot: Lot;
  readonly folder: string;
  readonly deed: string;
  readonly visit: string;
  readonly shas: readonly string[];
}

/** Keeps a text as the only file of an edition, with one page made of it. */
export async function keepText(
  lot: Lot,
  paper: { readonly kind: string; readonly title: string; readonly text: string; readonly number?: string },
): Promise<string> {
  const source = join(lot.folder, 'table', `${paper.title}.pdf`);
  writeFileSync(source, paper.text);
  const { sha256: sha } = await lot.takeInOriginal(source, `${paper.title}.pdf`);
  await lot.takeOff(source);
  const pages = lot.temporaryPath();
  const made = `pages of ${paper.text}`;
  writeFileSync(pages, made);
  const facts = {
    page: 0,
    width: 612,
    height: 792,
    clearStrips: [],
    openSaves: 0,
    extraRestores: 0,
    bytes: made.length,
    text: paper.text,
  };
  const rendition = { source: sha, recipe: 'r', tool: 't', rung: 'x', pages: [facts], sealed: false, notes: [] };
  await lot.keepRendition(pages, { rendition, sha256: sha256(made), bytes: made.length });
  const { edition } = lot.keepEdition({
    kind: paper.kind,
    title: paper.title,
    parts: [{ rendition: sha256(made) }],
    originals: [sha],
    received: day,
    number: paper.number,
  });
  return edition;
}

/** A small lot with a deed, a permit, a visit with a comment, an event, a record, and a letter on the table. */
export async function begin(folder: string): Promise<LotInFolder> {
  mkdirSync(folder, { recursive: true });
  const layers = [{ name: 'common', text: 'title: Brindlemoor County practice\n' }];
  const lot = createLot(folder, { title: 'Heron Lane', practice, layers, day, holder });
  const deed = await keepText(lot, { kind: 'deed', title: 'Deed', text: 'the deed itself', number: 'D-1' });
  await keepText(lot, { kind: 'septic-permit', title: 'Septic permit', text: 'septic words', number: 'S-1' });
  const visit = lot.recordVisit({ errand: 'permit-apply', day, state: 'sent back' });
  lot.addComment({ visit, number: '1', text: 'Show the setback.' });
  lot.noteEvent({ event: 'begun', day });
  lot.addRecord({ sort: 'note', day, title: 'Pump', text: 'blue' });
  writeFileSync(join(folder, 'table', 'letter.txt'), 'Dear owner,');
  return { lot, folder, deed, visit, shas: [sha256('the deed itself'), sha256('septic words')] };
}
