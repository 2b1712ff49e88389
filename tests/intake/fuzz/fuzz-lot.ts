import { copyFileSync } from 'node:fs';
import { join } from 'node:path';
import type { KeepDone } from '../../../core/intake/rendition-model.ts';
import { createLot, type Lot } from '../../../core/store/index.ts';
import type { Practice } from '../../../core/vocabulary/practice.ts';

const practice: Practice = {
  title: 'Fuzz',
  layers: ['common'],
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

/** A lot with nothing in it, for whatever of the damaged files is kept. */
export function fuzzLot(root: string): Lot {
  const layers = [{ name: 'common', text: 'title: Fuzz\n' }];
  const holder = { program: 'fuzz', host: 'here', pid: process.pid };
  return createLot(join(root, 'lot'), { title: 'Fuzz', practice, layers, day: '2026-04-14', holder });
}

/** Keeps a file and its pages as a paper, while the pages still lie at `output`. */
export async function intoLot(lot: Lot, at: { input: string; output: string; done: KeepDone }): Promise<void> {
  const { rendition, sha256, bytes } = at.done;
  const { sha256: source } = await lot.takeInOriginal(at.input, 'changed by chance');
  const copy = lot.temporaryPath();
  copyFileSync(at.output, copy);
  await lot.keepRendition(copy, { rendition, sha256, bytes });
  const title = source.slice(0, 12);
  const parts = [{ rendition: sha256 }];
  lot.act(`Kept ${title}`, () =>
    lot.keepEdition({ kind: 'other', title, parts, originals: [source], received: '2026-04-14' }),
  );
}
