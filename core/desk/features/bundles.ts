import { rm } from 'node:fs/promises';
import { hostname } from 'node:os';
import { joinSent } from '../../calendar/send-dates.ts';
import { asciiName } from '../../packet/plan/names.ts';
import { mendLot, openLot, restoreBundle } from '../../store/index.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import { onDesk, onLot } from '../context.ts';
import { requests } from '../contract/requests.ts';
import type { BundleAnswer, MendAnswer, MergeAnswer, RestoreAnswer } from '../contract/written-answers.ts';
import { lastCalendar, rememberCalendar, sentCalendarIn } from './calendar-memory.ts';
import { offerMade } from './made-files.ts';
import { lastAct } from './record-card.ts';

/** The lot as one file: a backup, and the way between two computers. */
export const bundle = onLot(requests.bundle, async (_input, at): Promise<BundleAnswer> => {
  const path = at.lot.temporaryPath();
  try {
    const work = { signal: at.signal, onProgress: at.progress };
    const { sha256, files, notes } = await at.lot.writeBundle(path, { day: at.day, work });
    const name = `${asciiName(`${at.lot.view().title} ${at.day}`).toLowerCase() || 'lot'}.lot.zip`;
    return { ...(await offerMade({ path, name, key: 'bundle' }, at)), sha256, files, notes };
  } finally {
    await rm(path, { force: true });
  }
});

/** A lot folder made from a bundle, opened, and looked through once more. */
export const restore = onDesk(requests.restore, async ({ bundle: ticket, folder }, at): Promise<RestoreAnswer> => {
  const { path } = at.tickets.look(folder);
  const work = { signal: at.signal, onProgress: at.progress };
  const { title, files, bytes } = await restoreBundle(at.tickets.look(ticket), path, work);
  const lot = openLot(path, { holder: { program: at.host.program, host: hostname(), pid: process.pid } });
  const handle = at.register(lot, path);
  const { problems } = await lot.verify(work);
  return { lot: handle, title, files, bytes, notes: problems.map(({ say, next }) => `${say} ${next}`) };
});

/** A damaged lot is mended while nobody has it open; it is opened as ever afterwards. */
export const mend = onDesk(requests.mend, async ({ folder }, at): Promise<MendAnswer> => {
  const { path } = at.tickets.look(folder);
  if (at.openIn(path) !== undefined) {
    throw new LotfileError('lot busy', 'This lot is open in another window.', {
      about: path,
      next: 'Close its other windows, then mend it. A window closed just now counts half a minute longer.',
    });
  }
  return mendLot(path, { host: hostname() });
});

/** What is new in a bundle of the same lot, taken over in one act; conflicts wait for the person. */
export const merge = onLot(requests.merge, async ({ bundle: ticket, look, choices, all }, at): Promise<MergeAnswer> => {
  const offered = at.tickets.look(ticket);
  const work = { signal: at.signal, onProgress: at.progress };
  const made = await at.lot.mergeBundle(offered.path, { look, choices, all, name: offered.name, work });
  const { done, title, taken, conflicts, notes, calendar } = made;
  // What their calendar was told counts here too, so that no date goes out under a lower count.
  const sent = calendar === undefined ? undefined : sentCalendarIn(calendar);
  const joined = look || sent === undefined ? undefined : joinSent(lastCalendar(at), sent);
  if (joined !== undefined) rememberCalendar(joined, at);
  return { act: done ? lastAct(at) : undefined, title, taken, conflicts, notes };
});
