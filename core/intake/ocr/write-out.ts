import { readFileSync, writeFileSync } from 'node:fs';
import type { Practice } from '../../vocabulary/practice.ts';
import { type PageText, plainText } from '../reading/page-text.ts';
import { readPaper } from '../reading/read-paper.ts';
import type { SuggestDone, SuggestJob, WriteOutDone, WriteOutJob } from './read-model.ts';
import { type ReadControl, readingRecipe, readPages } from './read-pages.ts';

/** What stands in a file of written-out words. */
interface WrittenWords {
  readonly recipe: number;
  readonly pages: readonly PageText[];
}

/** Reads a file's words and writes them, with their places, to the job's output. */
export async function writeOut(job: WriteOutJob, control: ReadControl = {}): Promise<WriteOutDone> {
  const pages = await readPages(job.input, job.name, control);
  writeFileSync(job.output, JSON.stringify({ recipe: readingRecipe, pages } satisfies WrittenWords));
  return {
    written: pages.map((page) => ({
      page: page.page,
      source: page.source,
      blank: page.blank === true,
      text: plainText(page),
    })),
  };
}

/** Reads one paper off words that were written out: `readPaper` on the pages that are its own. */
export function suggest({ texts, practice, today, kind, pages: own }: SuggestJob): SuggestDone {
  const { pages }: WrittenWords = JSON.parse(readFileSync(texts, 'utf8'));
  const rules: Practice = JSON.parse(readFileSync(practice, 'utf8'));
  const chosen = own === undefined ? pages : pages.filter(({ page }) => own.includes(page));
  return { reading: readPaper(chosen, rules, { today, kind }) };
}
