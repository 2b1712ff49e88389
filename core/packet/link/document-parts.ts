import type { LinkOrder } from '../link-order.ts';
import type { FinishedFile } from './finished-file.ts';
import type { DefaultFonts } from './form-fonts.ts';
import type { FormCarry } from './forms.ts';
import { uniteLayers } from './layers.ts';
import { labelTree, writeOutline } from './outline.ts';
import type { SourceCopy } from './source-copy.ts';
import { textString } from './syntax/text-string.ts';
import { dict, type FinishedRef, name } from './syntax/values.ts';

export interface DocumentParts {
  readonly out: FinishedFile;
  readonly order: LinkOrder;
  readonly pages: FinishedRef;
  readonly pageAt: (sheet: number) => FinishedRef;
  readonly sources: readonly { readonly source: SourceCopy; readonly forms: FormCarry }[];
  readonly fonts: DefaultFonts;
}

/** Writes what belongs to the file as a whole, under the catalog's reserved number. Returns the information dictionary. */
export function writeCatalog(catalog: FinishedRef, parts: DocumentParts): FinishedRef {
  const { out, order, pages, pageAt } = parts;
  const outline = writeOutline(out, order.bookmarks, pageAt);
  const fields = parts.sources.flatMap(({ forms }) => forms.finish());
  const layers = uniteLayers(parts.sources.map(({ source }) => source));
  out.write(
    catalog.num,
    dict({
      Type: name('Catalog'),
      Pages: pages,
      Outlines: outline,
      PageMode: outline === undefined ? undefined : name('UseOutlines'),
      PageLabels: labelTree(order.labels),
      Lang: order.language === '' ? undefined : textString(order.language),
      ViewerPreferences: dict({ DisplayDocTitle: true }),
      AcroForm: fields.length === 0 ? undefined : dict({ Fields: fields, DR: parts.fonts.resources() }),
      OCProperties: layers,
    }),
  );
  return out.add(
    dict({
      Title: textString(order.title),
      Subject: order.subject === '' ? undefined : textString(order.subject),
      Creator: textString('Lotfile'),
      Producer: textString('Lotfile'),
    }),
  );
}
