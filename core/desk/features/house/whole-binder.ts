import { mkdir, rm } from 'node:fs/promises';
import type { EditionContent } from '../../../packet/plan-model.ts';
import type { RecordLink } from '../../../record/record-model.ts';
import type { EditionId } from '../../../vocabulary/lot.ts';
import type { Delivery } from '../../../vocabulary/practice.ts';
import type { AtLot } from '../../context.ts';
import { askedOf } from '../asked.ts';
import type { ChosenEdition } from './chosen-editions.ts';
import type { RecordFolder } from './record-folder.ts';

/** One file for the phone: index, dividers and bookmarks lead through it without a net. */
const binderDelivery: Delivery = {
  way: 'site binder',
  sets: 1,
  files: 'one file',
  untouched: false,
  cover: true,
  index: true,
  dividers: true,
  bookmarks: true,
  stamps: true,
  sealedCopy: true,
  basis: { on: 'common practice' },
};

interface Binding {
  readonly at: AtLot;
  readonly folder: RecordFolder;
  readonly contents: Readonly<Record<EditionId, EditionContent>>;
}

/** The papers that count, in one PDF made as a packet is made: planned, linked, read back. */
export async function wholeBinder(chosen: readonly ChosenEdition[], binding: Binding): Promise<readonly RecordLink[]> {
  const { at, folder, contents } = binding;
  const editions = chosen
    .filter(({ edition, earlier }) => !earlier && (contents[edition.id]?.pages.length ?? 0) > 0)
    .map(({ edition }) => edition.id);
  if (editions.length === 0) return [];
  const [{ planPacket }, { assemblePacket }, { loadFonts }] = await Promise.all([
    import('../../../packet/plan/index.ts'),
    import('../../../packet/assemble.ts'),
    import('../../../packet/sheets/fonts.ts'),
  ]);
  const fonts = await loadFonts();
  const { lot, practice, day } = askedOf(at);
  const purpose = {
    of: 'own choice',
    title: 'House record',
    recipient: 'whoever looks after the house',
    editions,
    delivery: binderDelivery,
  } as const;
  const plan = planPacket({ lot, practice, day, purpose, contents }, fonts);
  const working = at.lot.temporaryPath();
  await mkdir(working);
  try {
    const binder = { ...plan, files: plan.files.filter(({ sort }) => sort === 'packet' || sort === 'sealed') };
    const made = await assemblePacket(binder, {
      folder: working,
      fonts,
      renditionPath: (sha) => at.lot.renditionPath(sha),
      originalPath: (sha) => at.lot.originalPath(sha),
      originals: [],
      signal: at.signal,
      onProgress: at.progress,
    });
    const links: RecordLink[] = [];
    const [volumes, sealed] = [true, false].map((whole) => made.filter(({ sort }) => (sort === 'packet') === whole));
    // The cover names them as files beside it.
    for (const { path, sha256, name } of sealed ?? []) {
      await folder.copy(path, `beside-the-binder/${name}`, { sha256, name });
    }
    const several = (volumes ?? []).length > 1;
    for (const [n, { path, sha256, name }] of (volumes ?? []).entries()) {
      const to = folder.pathFor('', several ? `site-binder-${n + 1}` : 'site-binder', 'pdf');
      await folder.copy(path, to, { sha256, name });
      links.push({ label: several ? `Site binder, volume ${n + 1}` : 'Site binder, for the phone', path: to });
    }
    return links;
  } finally {
    await rm(working, { recursive: true, force: true });
  }
}
