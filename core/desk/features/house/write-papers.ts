import { join } from 'node:path';
import type { LinkOrder } from '../../../packet/link-order.ts';
import { asciiName, extensionOf } from '../../../packet/plan/names.ts';
import type { EditionContent } from '../../../packet/plan-model.ts';
import type { RecordLink, RecordOffice } from '../../../record/record-model.ts';
import { dayInWords } from '../../../vocabulary/days.ts';
import type { EditionId } from '../../../vocabulary/lot.ts';
import type { AtLot } from '../../context.ts';
import { officeTitle } from '../asked.ts';
import type { ChosenEdition } from './chosen-editions.ts';
import type { RecordFolder } from './record-folder.ts';

interface Writing {
  readonly at: AtLot;
  readonly folder: RecordFolder;
  readonly contents: Readonly<Record<EditionId, EditionContent>>;
}

function orderOf({ title }: ChosenEdition, { pages }: EditionContent, at: AtLot): LinkOrder {
  const shas = [...new Set(pages.map(({ rendition }) => rendition))];
  return {
    title,
    subject: at.lot.view().title,
    language: 'en-US',
    sources: shas.map((sha256) => ({ id: sha256, path: at.lot.renditionPath(sha256), sha256, title })),
    pages: pages.map(({ rendition, facts, turn }) => ({
      source: rendition,
      page: facts.page,
      turn,
      openSaves: facts.openSaves,
      extraRestores: facts.extraRestores,
      links: [],
    })),
    bookmarks: [],
    labels: [],
  };
}

/** The pages as anybody can read them, in one PDF, through the packet's own linking and reading back. */
async function writePages(one: ChosenEdition, path: string, { at, folder, contents }: Writing): Promise<void> {
  const content = contents[one.edition.id];
  if (content === undefined) return;
  const [{ linkPacket }, { readBackUnnamed }] = await Promise.all([
    import('../../../packet/link/index.ts'),
    import('../../../packet/read-back/index.ts'),
  ]);
  const order = orderOf(one, content, at);
  const control = { signal: at.signal };
  await linkPacket(order, folder.place(path), {
    ...control,
    check: (made) => readBackUnnamed(order, made, control),
  });
  await folder.written(path);
}

function stemOf({ title, edition }: ChosenEdition): string {
  const revision = edition.revision === undefined ? undefined : `rev ${edition.revision}`;
  return [title, edition.number, revision, edition.issued].filter((part) => part !== undefined).join('_');
}

async function filesOf(one: ChosenEdition, under: string, writing: Writing): Promise<readonly RecordLink[]> {
  const { at, folder, contents } = writing;
  const content = contents[one.edition.id];
  if (content === undefined) return [];
  const links: RecordLink[] = [];
  if (content.pages.length > 0) {
    const path = folder.pathFor(under, stemOf(one), 'pdf');
    await writePages(one, path, writing);
    links.push({ label: 'read', path });
  }
  for (const original of content.originals) {
    const path = folder.pathFor(`${under}/as-it-came`, stemOf(one), extensionOf(original.name));
    await folder.copy(at.lot.originalPath(original.sha256), path, original);
    links.push({ label: 'as it came', path });
  }
  return links;
}

/** Writes every paper into the folder of its office; the rows of the index. */
export async function writePapers(
  chosen: readonly ChosenEdition[],
  writing: Writing,
): Promise<readonly RecordOffice[]> {
  const { at } = writing;
  const practice = at.lot.practice();
  const byOffice = Map.groupBy(chosen, ({ office }) => office);
  const offices = Object.keys(practice.offices).filter((office) => byOffice.has(office));
  const strangers = [...byOffice.keys()].filter((office) => !offices.includes(office));
  const rows: RecordOffice[] = [];
  let done = 0;
  for (const [n, office] of [...offices, ...strangers].entries()) {
    const title = officeTitle(practice, office);
    const under = join('papers', `${String(n + 1).padStart(2, '0')}-${asciiName(title) || 'office'}`).replaceAll(
      '\\',
      '/',
    );
    const papers: RecordOffice['papers'][number][] = [];
    for (const one of byOffice.get(office) ?? []) {
      at.signal.throwIfAborted();
      at.progress({ what: 'writing the papers', done, of: chosen.length });
      done += 1;
      const { edition, state, earlier } = one;
      papers.push({
        title: one.title,
        number: edition.number ?? '',
        issued: edition.issued === undefined ? '' : dayInWords(edition.issued),
        state,
        earlier,
        links: await filesOf(one, under, writing),
      });
    }
    rows.push({ title, papers });
  }
  return rows;
}
