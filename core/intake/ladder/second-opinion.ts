import { type SecondSight, secondSight } from '../../reader/second-reader.ts';
import type { KeepContext } from '../keep-context.ts';

/** A ligature more or less is no loss. */
const allowed = 0.02;

function doubtOn(original: SecondSight, kept: SecondSight): string | undefined {
  if (kept.pageCount < original.pageCount) {
    return `Another reader finds ${original.pageCount} pages in the original, ${kept.pageCount} were kept: compare them.`;
  }
  for (const [index, before] of original.pages.entries()) {
    const after = kept.pages[index];
    const lost = after === undefined ? before.letters : before.letters - after.letters;
    if (lost > Math.max(3, before.letters * allowed)) {
      return `Another reader finds more words on page ${index + 1} of the original than were kept: compare them.`;
    }
    if (after !== undefined && after.annotations < before.annotations) {
      return `Another reader finds more notes or fields on page ${index + 1} of the original than were kept: compare them.`;
    }
  }
  return undefined;
}

/**
 * What a reader of other hands finds in the original and misses in the kept pages.
 * @returns a sentence for the person; undefined where nothing is missing, or that reader has no opinion
 */
export async function secondOpinion({ job }: KeepContext): Promise<string | undefined> {
  const original = await secondSight(job.input, job.password);
  if (original === undefined) return undefined;
  const kept = await secondSight(job.output);
  return kept === undefined ? undefined : doubtOn(original, kept);
}
