import type { KeepContext } from '../keep-context.ts';
import { normalise } from '../normalise.ts';
import { type ReaderDocument, saveAnew } from '../pdfium/open-document.ts';
import { recipes } from '../recipe.ts';
import type { KeepRung } from '../rendition-model.ts';
import { drawFields } from './draw-fields.ts';
import { importPages } from './import-pages.ts';
import { picturePages } from './page-pictures.ts';
import { damagedInside, viaScrap } from './via-scrap.ts';

/** One way of making pages sound. */
export interface Rung {
  readonly rung: Exclude<KeepRung, 'picture to page'>;
  readonly recipe: string;
  /**
   * Writes sound pages to the job's output.
   * @returns what went wrong, to stand after "can't be copied without loss: "; undefined where it was written.
   */
  make(context: KeepContext, original: ReaderDocument): Promise<string | undefined>;
  /** The reader that compares the pages wrote them: another one is asked, too. */
  readonly writtenByJudge?: true | undefined;
  /** The text stands beside the pages, not in them. */
  readonly loses?: 'text' | undefined;
}

/** Every way, cheapest first; each is tried only where those before it lost something. */
export const rungs: readonly Rung[] = [
  {
    rung: 'normalised',
    recipe: recipes.pdf,
    async make({ job }) {
      return (await normalise(job.input, job.output, job.password)) ? undefined : damagedInside;
    },
  },
  {
    rung: 're-saved, then normalised',
    recipe: recipes.pdfReSaved,
    writtenByJudge: true,
    make: (context, original) => viaScrap(context, (scrap) => saveAnew(original, scrap)),
  },
  { rung: 'fields drawn, then normalised', recipe: recipes.pdfFields, make: drawFields, writtenByJudge: true },
  {
    rung: 'imported, then normalised',
    recipe: recipes.pdfImported,
    writtenByJudge: true,
    make: importPages,
  },
  { rung: 'pages as pictures', recipe: recipes.pdfPictures, make: picturePages, loses: 'text' },
];
