import { existsSync, readdirSync } from 'node:fs';
import { hostname } from 'node:os';
import { figures } from '../../figures/index.ts';
import { createLot, type Holder, type Lot, openLot } from '../../store/index.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import { type At, onDesk, onLot } from '../context.ts';
import { requests } from '../contract/requests.ts';
import { commonLayers } from '../templates.ts';
import { attendantOf } from './intake/companions.ts';
import { safetyCopiesOf } from './safety-copies.ts';

function holderOf(at: At): Holder {
  return { program: at.host.program, host: hostname(), pid: process.pid };
}

/** A lot has a folder to itself, so that whoever copies it copies the lot and nothing else. */
function refuseUsedFolder(path: string): void {
  if (!existsSync(path) || readdirSync(path).length === 0) return;
  throw new LotfileError('wrong use', `"${path}" is not empty.`, {
    about: path,
    next: 'Name a new folder for the lot.',
  });
}

/** Takes up an open lot: from now on its table is looked after. */
function taken(lot: Lot, path: string, at: At): string {
  const handle = at.register(lot, path);
  attendantOf(at.onLot(handle));
  return handle;
}

/** Making, opening and closing lot folders. */
export const newLot = onDesk(requests['new-lot'], async ({ folder, title, target, layers, on }, at) => {
  const { readLayerFile, readPractice } = await import('../../practice/index.ts');
  const all = [...commonLayers(), ...layers.flatMap(readLayerFile)];
  const practice = readPractice(all, { figures: Object.keys(figures) });
  const { path } = at.tickets.look(folder);
  refuseUsedFolder(path);
  const lot = createLot(path, { title, practice, layers: all, day: on ?? at.day, holder: holderOf(at) });
  if (target !== undefined) lot.setTarget(target);
  return { lot: taken(lot, path, at), title, swept: 0, notes: [] };
});

export const openTheLot = onDesk(requests['open-lot'], async ({ folder, takeOver }, at) => {
  const { path } = at.tickets.look(folder);
  const shared = at.openIn(path);
  if (shared !== undefined) return { lot: shared.handle, title: shared.lot.view().title, swept: 0, notes: [] };
  const lot = openLot(path, { holder: holderOf(at), takeOver });
  const handle = taken(lot, path, at);
  const swept = lot.sweep().length;
  const copies = safetyCopiesOf(at.onLot(handle));
  const made = copies.make(at.day);
  // A program that ends after one request waits for it; one that stays goes on working meanwhile.
  if (at.host.stays !== true) await made;
  const notes = copies.problems().map(({ say, next }) => `${say} ${next}`);
  return { lot: handle, title: lot.view().title, swept, notes };
});

export const closeLot = onLot(requests['close-lot'], (_input, at) => {
  at.release();
  return { closed: true } as const;
});
