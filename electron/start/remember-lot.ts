import { type Day, LotfileError } from '../../core/desk/door.ts';
import type { Places } from '../host/places.ts';
import { WindowDesk } from '../host/window-desk.ts';

export interface LotToRemember {
  readonly folder: string;
  readonly places: Places;
  readonly version: string;
  readonly today?: (() => Day) | undefined;
}

/**
 * Puts a lot that lies somewhere on this computer into the list of lots: a browser has no dialog to choose it with.
 * @throws LotfileError where there is no lot, or a lot that can't be opened; one of the list that is open right now stays in it.
 */
export async function rememberLot({ folder, ...more }: LotToRemember): Promise<void> {
  await using host = new WindowDesk({ program: 'Lotfile (starting)', ...more });
  const reply = await host.ask('open-lot', { folder: host.folderTicket(folder) }, {});
  const listed = !reply.ok && reply.error.code === 'lot busy' && host.recents.has(folder);
  if (!reply.ok && !listed) throw LotfileError.from(reply.error);
}
