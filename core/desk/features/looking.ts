import { onLot } from '../context.ts';
import { requests } from '../contract/requests.ts';

/** History, undo and verify: looking at the lot as a whole. */
export const history = onLot(requests.history, ({ limit }, { lot }) => ({
  acts: lot.acts(limit).map(({ id, title, at, undone, lasting, undoes }) => ({
    act: String(id),
    title,
    at,
    undone,
    lasting,
    undoes: undoes === undefined ? undefined : String(undoes),
  })),
}));

export const undo = onLot(requests.undo, async ({ act }, at) => {
  const done = at.lot.undo(act === undefined ? undefined : Number(act));
  // The files of a paper whose keeping was undone are on the table again: undoing loses nothing.
  await at.lot.layBack(done.act);
  return { act: String(done.act), undone: done.title };
});

export const verify = onLot(requests.verify, async (_input, { lot, signal, progress }) => {
  const report = await lot.verify({ signal, onProgress: progress });
  const files = report.originals + report.renditions + report.packetFiles;
  return { files, problems: report.problems };
});
