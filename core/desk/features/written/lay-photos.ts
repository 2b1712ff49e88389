import { readFile, rm } from 'node:fs/promises';
import type { LaidPhoto } from '../../../packet/sheets/draw-photos.ts';
import type { LotRecord } from '../../../store/index.ts';
import type { PhotoPlace } from '../../../typeset/sheets/photo-sheet.ts';
import type { AtLot } from '../../context.ts';

/** Dots to the inch a print of a photo wants; more only makes the sheet too large to send. Common practice, no source. */
const dotsPerInch = 220;

/** A place in dots. */
function roomOf({ width, height }: PhotoPlace): { readonly width: number; readonly height: number } {
  const dots = (points: number): number => Math.round((points / 72) * dotsPerInch);
  return { width: dots(width), height: dots(height) };
}

/** A photo in the size of its place, made by a worker, which alone reads its bytes. */
async function pictureOf({ fileName, title, filePath }: LotRecord, place: PhotoPlace, at: AtLot): Promise<Uint8Array> {
  const output = at.lot.temporaryPath();
  try {
    const workers = await at.workers();
    const job = { job: 'glimpse', input: filePath ?? '', name: fileName ?? title, output } as const;
    await workers.glimpse({ ...job, room: roomOf(place) }, { signal: at.signal });
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
  const pairs = records.flatMap((record, n) => {
    const place = places[n];
    return place === undefined ? [] : [{ record, place }];
  });
  const laid: LaidPhoto[] = [];
  const atOnce = 2;
  for (let n = 0; n < pairs.length; n += atOnce) {
    at.signal.throwIfAborted();
    at.progress({ what: 'laying in photos', done: n, of: pairs.length });
    const made = pairs
      .slice(n, n + atOnce)
      .map(async ({ record, place }) => ({ picture: await pictureOf(record, place, at), place }));
    laid.push(...(await Promise.all(made)));
  }
  return laid;
}
