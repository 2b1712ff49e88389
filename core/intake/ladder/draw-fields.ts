import type { KeepContext } from '../keep-context.ts';
import { fileSource } from '../pdfium/byte-source.ts';
import { openDocument, type ReaderDocument, saveAnew } from '../pdfium/open-document.ts';
import { readPage } from '../pdfium/read-page.ts';
import type { RegularFile } from '../regular/regular-file.ts';
import { isDict, isRef, type Value } from '../regular/values.ts';
import { amend } from './amend.ts';
import { viaScrap } from './via-scrap.ts';

/** Drawing a page makes the second reader give every field on it a picture, which it then saves. */
async function saveDrawn({ job }: KeepContext): Promise<ReaderDocument | undefined> {
  const outcome = await openDocument(fileSource(job.input), job.password);
  if (!outcome.ok) return undefined;
  const { document } = outcome;
  for (let index = 0; index < document.pageCount; index += 1) readPage(document, index);
  return document;
}

/** Objects that take back the form's wish to be drawn by its reader; undefined where it has none. */
function withoutWish(file: RegularFile): ReadonlyMap<number, Value> | undefined {
  const root = file.trailer.get('Root');
  const catalog = file.dict(root);
  const at = catalog.get('AcroForm');
  const form = file.resolve(at);
  if (!isDict(form) || !form.has('NeedAppearances')) return undefined;
  const settled = new Map(form);
  settled.delete('NeedAppearances');
  if (isRef(at)) return new Map([[at.ref, settled]]);
  return isRef(root) ? new Map([[root.ref, new Map(catalog).set('AcroForm', settled)]]) : undefined;
}

/**
 * For forms that leave the look of their fields to the reader: the second reader draws each field, the pictures are
 * kept with the fields, and the form stops asking. Fields, names and values stay.
 */
export async function drawFields(context: KeepContext, original: ReaderDocument): Promise<string | undefined> {
  if (original.reader.call.FPDF_GetFormType(original.handle) === 0) return 'it has no fields';
  const drawn = await saveDrawn(context);
  if (drawn === undefined) return 'it could not be saved anew';
  try {
    const why = await viaScrap(context, (scrap) => saveAnew(drawn, scrap));
    return why ?? ((await amend(context, withoutWish)) ? undefined : 'its fields could not be drawn');
  } finally {
    drawn.close();
  }
}
