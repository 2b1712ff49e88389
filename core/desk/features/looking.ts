import { onLot } from '../context.ts';
import { requests } from '../contract/requests.ts';

/** Finding, history, undo and verify: looking at the lot as a whole. */
export const find = onLot(requests.find, ({ text, limit }, { lot }) => ({
  found: lot.search(text, { limit }).map(({ paper, edition, title, page, snippet }) => ({
    paper,
    edition,
    title,
    page,
    snippet,
  })),
}));

export const history = onLot(requests.history, ({ limit }, { lot }) => ({
  acts: lot.acts(limit).map(({ id, title, at, undone }) => ({ act: String(id), title, at, undone })),
}));

export const undo = onLot(requests.undo, ({ act }, { lot }) => {
  const done = lot.undo(act === undefined ? undefined : Number(act));
  return { act: String(done.act), undone: done.title };
});

export const verify = onLot(requests.verify, async (_input, { lot, signal, progress }) => {
  const report = await lot.verify({ signal, onProgress: progress });
  const files = report.originals + report.renditions + report.packetFiles;
  return { files, problems: report.problems };
});
