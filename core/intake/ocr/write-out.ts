import { readFileSync, writeFileSync } from 'node:fs';
import type { Practice } from '../../vocabulary/practice.ts';
import { type PageText, plainText } from '../reading/page-text.ts';
import { readPaper } from '../reading/read-paper.ts';
import { suggestCuts } from '../reading/suggest-cuts.ts';
import {
  type ReadPart,
  readingRecipe,
  type SuggestDone,
  type SuggestJob,
  type WriteOutDone,
  type WriteOutJob,
} from './read-model.ts';
import { type ReadControl, readPages } from './read-pages.ts';

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
      turn: page.turn,
      text: plainText(page),
    })),
  };
}

function pagesOf({ texts, pages: own }: ReadPart): readonly PageText[] {
  const { pages }: WrittenWords = JSON.parse(readFileSync(texts, 'utf8'));
  if (own === undefined) return pages;
  return own.flatMap((number) => pages.find(({ page }) => page === number) ?? []);
}

/** Reads one paper off words that were written out. Pages are counted from 0 in the order of its parts. */
export function suggest({ parts, practice, today, kind }: SuggestJob): SuggestDone {
  const rules: Practice = JSON.parse(readFileSync(practice, 'utf8'));
  const pages = parts.flatMap(pagesOf).map((text, page) => ({ ...text, page }));
  const reading = readPaper(pages, rules, { today, kind });
  const [only, ...more] = parts;
  // Only a file as a whole can be several papers: what was put together or picked by hand is one.
  const whole = more.length === 0 && only?.pages === undefined;
  const cuts = whole ? suggestCuts(pages, rules, today) : [];
  return { reading: cuts.length < 2 ? reading : { ...reading, cuts } };
}
