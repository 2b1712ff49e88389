import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { PlanFile } from '../../packet/plan-model.ts';
import type { KeptPacket, Lot } from '../../store/index.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import { type AtLot, onLot } from '../context.ts';
import { requests } from '../contract/requests.ts';
import type { PacketFileRow } from '../contract/screen-answers.ts';

/** A packet by its id or its title; the newest where several bear it. */
export function packetNamed(at: AtLot, said: string): KeptPacket {
  const all = at.lot.packets();
  const found =
    all.find(({ id }) => id === said) ?? all.find(({ title }) => title.toLowerCase() === said.toLowerCase());
  if (found !== undefined) return found;
  const some = all.slice(0, 5).map(({ id, title, day }) => `${id} (${title}, ${day})`);
  throw new LotfileError('not found', `No packet is called "${said}".`, {
    next: some.length === 0 ? 'Assemble one first.' : `There are: ${some.join('; ')}.`,
  });
}

function pagesIn(file: PlanFile | undefined): number {
  return file?.of === 'assembled' ? file.sheets.length : 0;
}

/**
 * What of a packet's files left the house: the private errand sheet never does, though handovers noted by earlier
 * versions list it.
 */
export function goneOut<F extends { readonly name: string }>(
  packet: string,
  files: readonly F[],
  at: Pick<AtLot, 'lot'>,
): readonly F[] {
  const own = ownSheets(packet, at);
  return files.filter(({ name }) => !own.has(name));
}

/** A plan is large and never changes: each is read once for as long as its lot is open. */
const sheetsOf = new WeakMap<Lot, Map<string, ReadonlySet<string>>>();

function ownSheets(packet: string, { lot }: Pick<AtLot, 'lot'>): ReadonlySet<string> {
  const known = sheetsOf.get(lot) ?? new Map<string, ReadonlySet<string>>();
  sheetsOf.set(lot, known);
  const own =
    known.get(packet) ??
    new Set(lot.packetPlan(packet).files.flatMap(({ name, sort }) => (sort === 'errand sheet' ? [name] : [])));
  known.set(packet, own);
  return own;
}

export type PacketPart = Omit<PacketFileRow, 'ticket'> & { readonly path: string };

/** The files of a packet as they were assembled, each with where it lies; whether it still does is asked separately. */
export function partsOf(packet: KeptPacket, at: AtLot): readonly PacketPart[] {
  const planned = new Map(at.lot.packetPlan(packet.id).files.map((file) => [file.name, file]));
  return packet.files.map(({ name, sha256, bytes }) => {
    const file = planned.get(name);
    return { name, sort: file?.sort ?? 'packet', pages: pagesIn(file), bytes, sha256, path: join(packet.folder, name) };
  });
}

/**
 * The files of a packet that are about to leave the house: each hashed once more, none left out. The private errand
 * sheet stays at home whatever became of it.
 * @throws LotfileError `packet refused` where one is missing, changed since it was assembled, or removed for good.
 */
export async function wholeParts(packet: KeptPacket, at: AtLot): Promise<readonly PacketPart[]> {
  const parts = partsOf(packet, at).filter(({ sort }) => sort !== 'errand sheet');
  const problems = await at.lot.checkPacket(packet.id, at.signal);
  const bad = problems.find(({ file }) => parts.some(({ name }) => name === file));
  if (bad === undefined) return parts;
  throw new LotfileError('packet refused', `${bad.say} The packet "${packet.title}" can't go out like this.`, {
    about: bad.file,
    next: bad.next,
  });
}

export const packetFiles = onLot(requests['packet-files'], ({ packet: said }, at) => {
  const packet = packetNamed(at, said);
  const parts = partsOf(packet, at);
  const there = parts.filter(({ path }) => existsSync(path));
  const files = there.map(({ path, ...row }) => ({ ...row, ticket: at.tickets.steady(path, row.name) }));
  const missing = parts.filter((part) => !there.includes(part)).map(({ name }) => name);
  const draft = at.lot.packetIsDraft(packet.id);
  return { packet: packet.id, title: packet.title, day: packet.day, draft, errand: packet.errand, files, missing };
});
