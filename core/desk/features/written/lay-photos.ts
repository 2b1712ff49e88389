import { readFile, rm } from 'node:fs/promises';
import type { LaidPhoto } from '../../../packet/sheets/draw-photos.ts';
import type { LotRecord } from '../../../store/index.ts';
import type { PhotoPlace } from '../../../typeset/sheets/photo-sheet.ts';
import type { AtLot } from '../../context.ts';
import { plainPages } from '../intake/plain-pages.ts';

/** A photo's page: the one made when it was kept as a paper, else made now by a worker, which alone reads its bytes. */
async function pagesOf({ file, fileName, title, filePath }: LotRecord, at: AtLot): Promise<Uint8Array> {
  const kept = file === undefined ? undefined : plainPages(at.lot, file);
  if (kept !== undefined) return readFile(at.lot.renditionPath(kept.sha256));
  const output = at.lot.temporaryPath();
  try {
    const workers = await at.workers();
    const job = { job: 'keep', input: filePath ?? '', name: fileName ?? title, output } as const;
    await workers.keep(job, { signal: at.signal });
    return await readFile(output);
  } finally {
    await rm(output, { force: true });
  }
}

/** Every photo with its place, worked on two at a time. */
export async function photosFor(
  records: readonly LotRecord[],
  places: readonly PhotoPlace[],
  at: AtLot,
): Promise<readonly LaidPhoto[]> {
  const laid: LaidPhoto[] = [];
  const atOnce = 2;
  for (let n = 0; n < records.length; n += atOnce) {
    at.signal.throwIfAborted();
    at.progress({ what: 'laying in photos', done: n, of: records.length });
    const pages = await Promise.all(records.slice(n, n + atOnce).map((record) => pagesOf(record, at)));
    for (const [k, one] of pages.entries()) {
      const place = places[n + k];
      if (place !== undefined) laid.push({ pages: one, place });
    }
  }
  return laid;
}
