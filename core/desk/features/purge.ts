import { LotfileError } from '../../vocabulary/errors.ts';
import { type AtLot, onLot } from '../context.ts';
import type { PurgeAnswer } from '../contract/answers.ts';
import { requests } from '../contract/requests.ts';
import { editionNamed } from '../named.ts';
import { readerOf } from './intake/companions.ts';
import { forgetMade } from './made-files.ts';

interface Private {
  readonly title: string;
  readonly files: readonly string[];
}

/** The files of a paper, or a file by its name on which nothing rests any more: its keeping was undone. */
function privateFiles(said: string, { lot, day }: AtLot): Private {
  try {
    const { paper, edition } = editionNamed({ view: lot.view(), practice: lot.practice(), day }, said);
    const files = new Set(lot.editionContent([edition.id])[edition.id]?.originals.map(({ sha256 }) => sha256));
    if (files.size > 0) return { title: paper.title, files: [...files] };
    throw new LotfileError('not found', `There is no file of "${paper.title}" to remove.`, {
      about: paper.title,
      next: 'A file whose keeping was undone is removed by its own name.',
    });
  } catch (error) {
    const [loose] = lot.looseOriginals(said);
    if (loose === undefined || LotfileError.from(error).code !== 'not found') throw error;
    return { title: loose.name, files: [loose.sha256] };
  }
}

async function copiedAnew({ lot, day }: AtLot): Promise<readonly string[]> {
  try {
    await lot.copyOfDay(day);
    return [];
  } catch (error) {
    const { message, next } = LotfileError.from(error);
    return [`The safety copies were removed, and no new one could be made. ${message} ${next ?? ''}`.trim()];
  }
}

/**
 * Removes a private paper's files for good, with every packet that holds them; a marker with the reason stays. What the
 * program made of them for the owner goes too, and the safety copy of the day is made anew without them.
 */
export const purge = onLot(requests.purge, async ({ edition: said, reason, sure }, at): Promise<PurgeAnswer> => {
  const { title, files } = privateFiles(said, at);
  if (!sure) {
    throw new LotfileError('wrong use', `This removes "${title}" for good, with every packet that holds it.`, {
      about: title,
      next: 'If you mean it, say so: sure.',
    });
  }
  const also = at.host.handedOver === undefined ? [] : [at.host.handedOver];
  const { act, papers, packets, left } = await at.lot.purge(files, { reason, also });
  for (const sha of files) readerOf(at).forget(sha);
  const notes = [...left, ...forgetMade(at), ...(await copiedAnew(at))];
  return { act: act === undefined ? undefined : String(act), papers, packets, notes };
});
