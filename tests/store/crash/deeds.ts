import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import type { PacketPlan } from '../../../core/packet/plan-model.ts';
import { createLot, type Lot, openLot, restoreBundle } from '../../../core/store/index.ts';
import { oldLotAt, oldLots } from '../fixtures/old-lot.ts';
import { smallLayers, smallPractice } from './small-practice.ts';

/** What a program that may die at any moment does with a lot, and what it says it has done. */

export const day = '2026-04-14';

/** What was told, each the moment it was done; `begun` tells what may or may not have happened since. */
export type Told =
  | { readonly did: 'kept'; readonly edition: string; readonly sha: string; readonly name: string }
  | { readonly did: 'laid' | 'put aside' | 'taken up'; readonly sha: string; readonly bytes: number }
  | { readonly did: 'assembled' | 'handed over'; readonly id: string }
  | { readonly did: 'bundle' | 'restored' | 'migrated' | 'begun a lot'; readonly path: string }
  | { readonly did: 'merged'; readonly papers: number }
  | { readonly did: 'undone'; readonly act: number }
  | { readonly did: 'copied' }
  | { readonly did: 'begin purge' | 'purged'; readonly sha: string }
  | { readonly did: 'begin undo' };

export interface Doing {
  /** Everything stands in here: the lot, what comes in, what goes out. */
  readonly root: string;
  readonly lot: Lot;
  readonly tell: (told: Told) => void;
  /** Makes every run's bytes its own. */
  readonly salt: string;
}

const holder = { program: 'the test', host: hostname(), pid: process.pid };

function shaOf(bytes: string): string {
  return createHash('sha256').update(bytes).digest('hex');
}

let made = 0;

/** Bytes nobody had before; where programs are killed some are long enough to be killed in. */
function freshBytes(salt: string): string {
  made += 1;
  const line = `${salt} file ${made}\n`;
  return line.repeat(made % 7 === 3 && salt.startsWith('kill') ? 60_000 : 60);
}

export function beginLot(root: string): Lot {
  return createLot(join(root, 'lot'), {
    title: 'Heron Lane',
    practice: smallPractice,
    layers: smallLayers,
    day,
    holder,
  });
}

export function openIn(folder: string): Lot {
  return openLot(folder, { holder });
}

async function keepOne(lot: Lot, salt: string): Promise<{ edition: string; sha: string; name: string }> {
  const bytes = freshBytes(salt);
  const name = `scan ${made}.pdf`;
  const path = lot.temporaryPath();
  writeFileSync(path, bytes);
  const laid = await lot.layOn(path, name);
  const onTable = join(lot.folder, 'table', laid.name);
  const taken = await lot.takeInOriginal(onTable, name);
  const sound = `sound ${bytes}`;
  writeFileSync(path, sound);
  const pages = [
    { page: 0, width: 612, height: 792, clearStrips: [], openSaves: 0, extraRestores: 0, bytes: 40, text: salt },
  ];
  const about = { source: taken.sha256, recipe: 'r', tool: 't', rung: 'normalised', sealed: false, notes: [] };
  const sha256 = shaOf(sound);
  await lot.keepRendition(path, { rendition: { ...about, pages }, sha256, bytes: sound.length });
  const { edition } = lot.keepEdition({
    kind: 'other',
    title: `Paper ${shaOf(bytes).slice(0, 12)}`,
    parts: [{ rendition: sha256 }],
    originals: [taken.sha256],
    received: day,
    facts: [{ fact: 'note', value: { sort: 'text', value: salt } }],
  });
  await lot.takeOff(onTable);
  return { edition, sha: taken.sha256, name };
}

async function keep({ lot, tell, salt }: Doing): Promise<void> {
  tell({ did: 'kept', ...(await keepOne(lot, salt)) });
}

async function layAndPutAside({ lot, tell, salt, root }: Doing): Promise<void> {
  const bytes = freshBytes(salt);
  const path = join(root, 'coming in.pdf');
  writeFileSync(path, bytes);
  const laid = await lot.layOn(path, 'coming in.pdf');
  const seen = { sha: laid.sha256, bytes: laid.bytes };
  tell({ did: 'laid', ...seen });
  const name = lot.putAside(laid.name);
  tell({ did: 'put aside', ...seen });
  lot.takeUp(name);
  tell({ did: 'taken up', ...seen });
}

function planOf(editions: readonly string[]): PacketPlan {
  const flags = { cover: true, index: true, dividers: false, bookmarks: true, stamps: true, sealedCopy: false };
  const basis = { on: 'common practice' } as const;
  return {
    code: 'OWN',
    title: 'Papers as asked for',
    recipient: 'Bank',
    day,
    delivery: { way: 'counter', sets: 1, files: 'one file', untouched: false, ...flags, basis },
    draft: false,
    tabs: editions.map((edition, n) => ({
      ...{ tab: n + 1, kind: 'other', title: 'Paper', issuedBy: '', number: '', dated: '', goodThrough: '' },
      ...{ edition, pages: 1, copies: 1, place: 'inside' as const, findings: [] },
    })),
    files: [],
    findings: [],
    notes: [],
  };
}

function newestEdition(lot: Lot): string | undefined {
  return lot.view().papers.findLast(({ editions }) => editions.some(({ readable }) => readable))?.editions[0]?.id;
}

async function assemble({ lot, tell, salt }: Doing): Promise<string> {
  const edition = newestEdition(lot);
  const files = ['packet.pdf', 'sealed.pdf'].map((name) => {
    const path = lot.temporaryPath();
    const bytes = freshBytes(`${salt} ${name}`);
    writeFileSync(path, bytes);
    return { path, name, sha256: shaOf(bytes), bytes: Buffer.byteLength(bytes) };
  });
  const plan = planOf(edition === undefined ? [] : [edition]);
  const { id } = await lot.keepPacket({ plan, practiceSha: lot.practiceSha(), files });
  tell({ did: 'assembled', id });
  return id;
}

async function handOver(doing: Doing): Promise<void> {
  const packet = await assemble(doing);
  const id = doing.lot.handOver({ packet, recipient: 'Bank', how: 'at the counter', day });
  doing.tell({ did: 'handed over', id });
}

async function bundle({ root, lot, tell, salt }: Doing, name = 'made'): Promise<string> {
  const path = lot.temporaryPath();
  await lot.writeBundle(path, { day, work: {} });
  const out = join(root, `${name} ${shaOf(`${salt}${made}`).slice(0, 12)}.lot.zip`);
  renameSync(path, out);
  tell({ did: 'bundle', path: out });
  return out;
}

/** A bundle made before, where there is one: only what comes after it is looked at then. */
async function someBundle(doing: Doing): Promise<string> {
  const made = join(doing.root, 'before.lot.zip');
  return existsSync(made) ? made : bundle(doing);
}

async function restore(doing: Doing): Promise<void> {
  const path = await someBundle(doing);
  const folder = join(doing.root, `restored ${shaOf(`${doing.salt}${made}`).slice(0, 12)}`);
  await restoreBundle({ path, name: 'the bundle' }, folder, {});
  doing.tell({ did: 'restored', path: folder });
}

/** The other computer's copy got a paper; its bundle comes back. */
async function merge(doing: Doing): Promise<void> {
  const { root, lot, tell } = doing;
  const before = join(root, 'theirs.lot.zip');
  const path = existsSync(before) ? before : await bundleOfOther(doing);
  const done = await lot.mergeBundle(path, { look: false, choices: {}, name: 'theirs', work: {} });
  if (done.done) tell({ did: 'merged', papers: lot.view().papers.length });
}

async function bundleOfOther(doing: Doing): Promise<string> {
  const { root, salt } = doing;
  const other = join(root, 'other');
  rmSync(other, { recursive: true, force: true });
  await restoreBundle({ path: await someBundle(doing), name: 'the bundle' }, other, {});
  const theirs = openIn(other);
  try {
    await keepOne(theirs, `${salt} theirs`);
    await assemble({ ...doing, lot: theirs, tell: () => undefined });
    return await bundle({ ...doing, lot: theirs, tell: () => undefined }, 'theirs');
  } finally {
    theirs.close();
  }
}

/** A lot as an earlier version left it is opened by this one. */
function migrate({ root, tell, salt }: Doing): void {
  const name = oldLots[made % oldLots.length] ?? '';
  const folder = oldLotAt(join(root, `old ${shaOf(`${salt}${made}`).slice(0, 12)}`), name);
  made += 1;
  const lot = openIn(folder);
  tell({ did: 'migrated', path: folder });
  lot.close();
}

function begin({ root, tell, salt }: Doing): void {
  const folder = join(root, `new ${shaOf(`${salt}${made}`).slice(0, 12)}`);
  made += 1;
  mkdirSync(folder);
  const lot = beginLot(folder);
  tell({ did: 'begun a lot', path: lot.folder });
  lot.close();
}

async function purge({ lot, tell, salt, root }: Doing): Promise<void> {
  const { sha, edition } = await keepOne(lot, salt);
  await assemble({ lot, salt, root, tell: () => undefined });
  tell({ did: 'begin purge', sha });
  const { left } = await lot.purge([sha], { reason: `private ${edition}` });
  if (left.length === 0) tell({ did: 'purged', sha });
}

async function undo({ lot, tell, salt }: Doing): Promise<void> {
  await keepOne(lot, salt);
  tell({ did: 'begin undo' });
  const { act } = lot.undo();
  await lot.layBack(act);
  tell({ did: 'undone', act });
}

async function copy({ lot, tell }: Doing): Promise<void> {
  made += 1;
  const days = String((made % 27) + 1).padStart(2, '0');
  if ((await lot.copyOfDay(`2026-05-${days}` as typeof day)) !== undefined) tell({ did: 'copied' });
}

/** Every deed by its name, in the order a run does them. */
export const deeds: Readonly<Record<string, (doing: Doing) => unknown>> = {
  keep,
  'lay on the table and put aside': layAndPutAside,
  assemble,
  'hand over': handOver,
  bundle,
  restore,
  merge,
  migrate,
  begin,
  purge,
  undo,
  copy,
};

/** What a new root begins with: a lot of two papers, a packet handed over; and bundles to restore and merge, if asked. */
export async function furnish(root: string, salt: string, bundles = false): Promise<readonly Told[]> {
  const told: Told[] = [];
  const lot = beginLot(root);
  const doing = { root, lot, salt, tell: (one: Told) => told.push(one) };
  await keep(doing);
  await keep(doing);
  await handOver(doing);
  if (bundles) {
    renameSync(await bundle(doing), join(root, 'before.lot.zip'));
    renameSync(await bundleOfOther(doing), join(root, 'theirs.lot.zip'));
    rmSync(join(root, 'other'), { recursive: true });
  }
  lot.close();
  return told.filter(({ did }) => did !== 'bundle');
}
