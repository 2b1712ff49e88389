import { LotfileError } from '../../../vocabulary/errors.ts';
import { onLot } from '../../context.ts';
import { requests } from '../../contract/requests.ts';
import type { SlimAnswer } from '../../contract/table-answers.ts';
import { editionNamed } from '../../named.ts';
import { offerMade } from '../made-files.ts';

const units: Readonly<Record<string, number>> = { kb: 1_000, mb: 1_000_000, kib: 1_024, mib: 1_048_576 };

/** "4 MB" in bytes. Offices mean a million by MB, or a little more: a million is right for both. */
export function bytesSaid(said: string): number {
  const match = /^(\d+(?:\.\d+)?)\s*([kKmM]i?[bB])$/.exec(said.trim());
  const bytes = Math.floor(Number(match?.[1]) * (units[match?.[2]?.toLowerCase() ?? ''] ?? Number.NaN));
  if (Number.isFinite(bytes) && bytes >= 1_000) return bytes;
  throw new LotfileError('wrong use', `"${said}" is no size.`, { next: 'Write a size such as 4 MB or 900 kB.' });
}

/** A smaller copy of a paper's pages for one office's or mailbox's limit; the paper itself is not touched. */
export const slim = onLot(requests.slim, async ({ edition: said, most }, at): Promise<SlimAnswer> => {
  const limit = bytesSaid(most);
  const { lot, signal } = at;
  const { paper, edition } = editionNamed({ view: lot.view(), practice: lot.practice(), day: at.day }, said);
  const pages = lot.editionContent([edition.id])[edition.id]?.pages ?? [];
  const renditions = [...new Set(pages.map(({ rendition }) => rendition))];
  if (renditions.length === 0) {
    throw new LotfileError('not found', `"${paper.title}" has no pages here.`, { about: paper.title });
  }
  const workers = await at.workers();
  const files: SlimAnswer['files'][number][] = [];
  for (const [n, rendition] of renditions.entries()) {
    const plain = paper.title.replace(/[\\/:*?"<>|]+/g, ' ').trim();
    const name = renditions.length === 1 ? `${plain}, smaller.pdf` : `${plain} ${n + 1}, smaller.pdf`;
    const output = lot.temporaryPath();
    const job = {
      job: 'slim',
      input: lot.renditionPath(rendition),
      name: paper.title,
      output,
      most: Math.floor(limit / renditions.length),
      sealed: edition.sealed,
    } as const;
    const done = await workers.slim(job, { signal, onProgress: at.progress });
    const made = await offerMade({ path: output, name, key: `slim ${rendition} ${limit}` }, at);
    files.push({
      ticket: made.ticket,
      name,
      before: done.before,
      after: done.after,
      fits: done.fits,
      notes: done.notes,
    });
  }
  return { title: paper.title, most: limit, files };
});
