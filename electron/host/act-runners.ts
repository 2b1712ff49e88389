import { randomUUID } from 'node:crypto';
import { constants, copyFileSync, renameSync, rmSync } from 'node:fs';
import { basename } from 'node:path';
import type * as z from 'zod';
import {
  type HostActAnswer,
  type HostActName,
  type HostCard,
  hostActs,
  LotfileError,
  type LotOffered,
} from '../../core/desk/door.ts';
import { makeLotFolder } from './lot-folder.ts';
import { isLot, lotsFound } from './lots-found.ts';
import { placeInWords } from './places.ts';
import type { WindowDesk } from './window-desk.ts';

/** An act made ready for a wire: it checks what comes and answers in the contract's type. */
export type ActRunner<Out> = (argument: unknown, host: WindowDesk) => Promise<Out>;

function on<In extends z.ZodType, Out>(
  spec: { readonly in: In; readonly help: string; readonly out?: Out },
  handle: (input: z.output<In>, host: WindowDesk) => Out | Promise<Out>,
): ActRunner<Out> {
  return async (argument, host) => {
    const read = spec.in.safeParse(argument ?? {});
    if (read.success) return handle(read.data, host);
    const where = read.error.issues[0]?.path.join('.') ?? '';
    throw new LotfileError('wrong use', `This can't be done as asked${where === '' ? '' : ` (${where})`}.`, {
      about: spec.help,
      next: 'Load the window again.',
    });
  };
}

type Lying = HostCard['found'][number];

function lying(path: string, title: string, host: WindowDesk): Lying {
  return { title, folder: host.folderTicket(path), place: placeInWords(path) };
}

function hostCard(host: WindowDesk): HostCard {
  const known = host.recents.list();
  const lots = known.map(
    ({ key, title, path, lastOpened, gone }): LotOffered => ({
      key,
      title,
      folder: host.folderTicket(path),
      place: placeInWords(path),
      lastOpened,
      gone,
    }),
  );
  const path = host.places.lots;
  const leftOut = host.recents.leftOut();
  const others = lotsFound(path, new Set([...known.map((lot) => lot.path), ...leftOut]));
  return {
    version: host.version,
    today: host.today(),
    lots,
    found: others.map((lot) => lying(lot.path, lot.name, host)),
    leftOut: leftOut.filter(isLot).map((lot) => lying(lot, basename(lot), host)),
    newLotsGoTo: placeInWords(path),
    newLotsFolder: { path, ticket: host.desk.tickets.steady(path) },
    dialogs: host.dialogs !== undefined,
  };
}

/** Whole or not at all, by way of a name that nobody has a file under. */
function copyWhole(from: string, to: string): void {
  const part = `${to}.${randomUUID()}.part`;
  try {
    copyFileSync(from, part, constants.COPYFILE_EXCL);
    renameSync(part, to);
  } catch (cause) {
    rmSync(part, { force: true });
    throw new LotfileError('disk', `"${to}" could not be written.`, {
      about: to,
      next: 'Choose another place, or make room on the disk.',
      cause,
    });
  }
}

async function save(ticket: string, host: WindowDesk): Promise<HostActAnswer<'save'>> {
  const { path, name } = host.desk.tickets.look(ticket);
  const to = await host.dialogs?.saveAs(name);
  if (to === undefined) return { saved: false, place: '' };
  copyWhole(path, to);
  return { saved: true, place: placeInWords(to) };
}

/** One runner for every act of the contract; the compiler sees that none is missing. */
export const actRunners: { readonly [N in HostActName]: ActRunner<HostActAnswer<N>> } = {
  host: on(hostActs.host, (_input, host) => hostCard(host)),
  'make-folder': on(hostActs['make-folder'], ({ title }, host) => {
    const path = makeLotFolder(host.places.lots, title);
    return { folder: host.folderTicket(path), place: placeInWords(path) };
  }),
  'choose-lot': on(hostActs['choose-lot'], async (_input, host) => {
    const path = await host.dialogs?.chooseFolder();
    return path === undefined ? {} : { folder: host.folderTicket(path) };
  }),
  'sample-lot': on(hostActs['sample-lot'], ({ state }, host) => host.sampleLot(state)),
  'forget-lot': on(hostActs['forget-lot'], ({ key }, host) => ({ forgotten: host.recents.forget(key) })),
  save: on(hostActs.save, ({ ticket }, host) => save(ticket, host)),
  'show-file': on(hostActs['show-file'], ({ ticket }, host) => {
    const { path } = host.desk.tickets.look(ticket);
    host.dialogs?.showFile(path);
    return { shown: host.dialogs !== undefined };
  }),
};
