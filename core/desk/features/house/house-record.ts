import { existsSync, mkdirSync, mkdtempSync, readdirSync, renameSync, rmdirSync, rmSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { ownersOn, parcelOn, placeOn } from '../../../packet/plan/identity.ts';
import { indexPage } from '../../../record/index-page.ts';
import type { HouseRecord, RecordLink } from '../../../record/record-model.ts';
import { dayInWords } from '../../../vocabulary/days.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import { type AtLot, onLot } from '../../context.ts';
import { requests } from '../../contract/requests.ts';
import type { HouseRecordAnswer } from '../../contract/written-answers.ts';
import { askedOf } from '../asked.ts';
import { paperBytes } from '../written/write-paper.ts';
import { chosenEditions } from './chosen-editions.ts';
import { RecordFolder } from './record-folder.ts';
import { recordTables } from './record-tables.ts';
import { wholeBinder } from './whole-binder.ts';
import { writePapers } from './write-papers.ts';

function refuseUsed(folder: string): void {
  if (!existsSync(folder) || readdirSync(folder).length === 0) return;
  throw new LotfileError('wrong use', `"${basename(folder)}" is not empty.`, {
    about: folder,
    next: 'Name a new folder for the house record.',
  });
}

/** Lists that the program writes anyway, laid beside the papers. */
async function writtenLists(at: AtLot, folder: RecordFolder): Promise<readonly RecordLink[]> {
  const lists = [
    { sort: 'inspection-log', label: 'Inspection log' },
    { sort: 'firms', label: 'List of firms' },
  ] as const;
  const links: RecordLink[] = [];
  for (const { sort, label } of lists) {
    const path = folder.pathFor('', label, 'pdf');
    folder.write(path, (await paperBytes({ sort, perSheet: '4' }, at)).bytes);
    links.push({ label, path });
  }
  return links;
}

function factsOf(at: AtLot): HouseRecord['facts'] {
  const view = at.lot.view();
  const facts: readonly (readonly [string, string])[] = [
    ['Owner', ownersOn(view, at.day)],
    ['Place', placeOn(view, at.day)],
    ['Parcel', parcelOn(view, at.day)],
    ['Practice', at.lot.practice().title],
  ];
  return facts.filter(([, value]) => value !== '');
}

interface Written {
  readonly folder: RecordFolder;
  readonly papers: number;
  readonly leftOut: HouseRecordAnswer['leftOut'];
}

async function writeAll(at: AtLot, root: string, privates: boolean): Promise<Written> {
  const folder = new RecordFolder(root);
  const { editions, leftOut } = chosenEditions(askedOf(at), privates);
  const contents = at.lot.editionContent(editions.map(({ edition }) => edition.id));
  const offices = await writePapers(editions, { at, folder, contents });
  const whole = [...(await wholeBinder(editions, { at, folder, contents })), ...(await writtenLists(at, folder))];
  const tables = await recordTables(at, folder);
  const title = at.lot.view().title;
  const facts = factsOf(at);
  folder.write('index.html', indexPage({ title, day: dayInWords(at.day), facts, whole, offices, tables, leftOut }));
  folder.write('SHA-256.txt', folder.hashList());
  return { folder, papers: new Set(editions.map(({ paper }) => paper.id)).size, leftOut };
}

/** Plain folders, one PDF of all, and an index: what outlives the program. Written aside, then renamed into place. */
export const houseRecord = onLot(
  requests['house-record'],
  async ({ folder: ticket, privates }, at): Promise<HouseRecordAnswer> => {
    const offered = at.tickets.look(ticket);
    const target = resolve(offered.path);
    refuseUsed(target);
    const parent = dirname(target);
    mkdirSync(parent, { recursive: true });
    const aside = mkdtempSync(join(parent, '.house-record-'));
    try {
      const { folder, papers, leftOut } = await writeAll(at, aside, privates);
      if (existsSync(target)) rmdirSync(target);
      renameSync(aside, target);
      const notes = privates ? ['Private papers are in it: think twice before you give it away.'] : [];
      return { place: offered.name, papers, files: folder.files, bytes: folder.bytes, leftOut, notes };
    } finally {
      rmSync(aside, { recursive: true, force: true });
    }
  },
);
