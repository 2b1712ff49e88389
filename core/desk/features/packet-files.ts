import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { PlanFile } from '../../packet/plan-model.ts';
import type { KeptPacket } from '../../store/index.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import { type AtLot, onLot } from '../context.ts';
import type { PacketFileRow } from '../contract/answers.ts';
import { requests } from '../contract/requests.ts';

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

/** The files of a packet as they lie in the lot, each with where it is; those a purge removed are left out. */
export function packetParts(
  packet: KeptPacket,
  at: AtLot,
): readonly (Omit<PacketFileRow, 'ticket'> & { path: string })[] {
  const planned = new Map(at.lot.packetPlan(packet.id).files.map((file) => [file.name, file]));
  return packet.files.flatMap(({ name, sha256, bytes }) => {
    const path = join(packet.folder, name);
    const file = planned.get(name);
    return existsSync(path) ? [{ name, sort: file?.sort ?? 'packet', pages: pagesIn(file), bytes, sha256, path }] : [];
  });
}

export const packetFiles = onLot(requests['packet-files'], ({ packet: said }, at) => {
  const packet = packetNamed(at, said);
  const files = packetParts(packet, at).map(({ path, ...row }) => ({
    ...row,
    ticket: at.tickets.steady(path, row.name),
  }));
  const draft = at.lot.packetIsDraft(packet.id);
  return { packet: packet.id, title: packet.title, day: packet.day, draft, errand: packet.errand, files };
});
