import { LotfileError } from '../../vocabulary/errors.ts';
import { onLot } from '../context.ts';
import type { UndoAnswer } from '../contract/answers.ts';
import { requests } from '../contract/requests.ts';
import { safetyCopiesOf } from './safety-copies.ts';

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

export const undo = onLot(requests.undo, async ({ act }, { lot }): Promise<UndoAnswer> => {
  const done = lot.undo(act === undefined ? undefined : Number(act));
  const told = { act: String(done.act), undone: done.title };
  try {
    // The files of a paper whose keeping was undone are on the table again: undoing loses nothing from sight.
    return { ...told, onTable: await lot.layBack(done.act), notes: [] };
  } catch (error) {
    // It is undone all the same, and the file is still among the originals.
    const { message } = LotfileError.from(error);
    return { ...told, onTable: [], notes: [`Undone, but its file could not be laid on the table again. ${message}`] };
  }
});

export const verify = onLot(requests.verify, async (_input, at) => {
  const { signal, progress } = at;
  const report = await at.lot.verify({ signal, onProgress: progress });
  const files = report.originals + report.renditions + report.packetFiles;
  return { files, problems: [...report.problems, ...safetyCopiesOf(at).problems()] };
});
