import type { KeepContext } from '../keep-context.ts';
import { pagesOf } from '../page/page-tree.ts';
import { fileSource } from '../pdfium/byte-source.ts';
import { type ReaderDocument, saveAnew, savePages } from '../pdfium/open-document.ts';
import { RegularFile } from '../regular/regular-file.ts';
import { isDict, isRef } from '../regular/values.ts';
import { viaScrap } from './via-scrap.ts';

/** A page that is its own parent, or its parent's parent. */
function hangsOnItself(path: string): boolean {
  const source = fileSource(path);
  try {
    const file = new RegularFile(source);
    return pagesOf(file).some(({ object, dict }) => {
      const seen = new Set([object]);
      for (let at = dict; ; ) {
        const parent = at.get('Parent');
        if (!isRef(parent)) return false;
        if (seen.has(parent.ref)) return true;
        seen.add(parent.ref);
        const above = file.resolve(parent);
        if (!isDict(above)) return false;
        at = above;
      }
    });
  } finally {
    source.close();
  }
}

/**
 * The pages alone, brought into a new file by the second reader. It looks upwards for what a page inherits and never
 * ends where that leads in a circle, so that is looked at first, in the file as it saves it.
 */
export async function importPages(context: KeepContext, original: ReaderDocument): Promise<string | undefined> {
  const why = await viaScrap(context, (scrap) => saveAnew(original, scrap));
  if (why === undefined && hangsOnItself(context.job.output)) return 'its pages hang on themselves';
  return await viaScrap(context, (scrap) => savePages(original, scrap));
}
