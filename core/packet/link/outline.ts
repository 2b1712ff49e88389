import type { PlanBookmark, PlanLabel } from '../plan-model.ts';
import type { FinishedFile } from './finished-file.ts';
import { textString } from './syntax/text-string.ts';
import { dict, FinishedRef, name, type PdfDict, type PdfValue } from './syntax/values.ts';

/** Page numbers of the finished file by sheet. */
type PageAt = (sheet: number) => FinishedRef;

/** Writes the bookmarks as an outline; branches start folded (ISO 32000-1, 12.3.3). Undefined without bookmarks. */
export function writeOutline(
  out: FinishedFile,
  bookmarks: readonly PlanBookmark[],
  pageAt: PageAt,
): FinishedRef | undefined {
  if (bookmarks.length === 0) return undefined;
  const root = new FinishedRef(out.reserve());
  const ends = writeLevel({ out, pageAt }, bookmarks, root);
  out.write(root.num, dict({ Type: name('Outlines'), ...ends, Count: bookmarks.length }));
  return root;
}

interface Outline {
  readonly out: FinishedFile;
  readonly pageAt: PageAt;
}

function writeLevel(
  { out, pageAt }: Outline,
  bookmarks: readonly PlanBookmark[],
  parent: FinishedRef,
): { readonly First: PdfValue | undefined; readonly Last: PdfValue | undefined } {
  const refs = bookmarks.map(() => new FinishedRef(out.reserve()));
  for (const [i, bookmark] of bookmarks.entries()) {
    const here = refs[i];
    if (here === undefined) continue;
    const ends = bookmark.children.length === 0 ? {} : writeLevel({ out, pageAt }, bookmark.children, here);
    out.write(
      here.num,
      dict({
        Title: textString(bookmark.title),
        Parent: parent,
        Prev: refs[i - 1],
        Next: refs[i + 1],
        ...ends,
        Count: bookmark.children.length === 0 ? undefined : -bookmark.children.length,
        Dest: [pageAt(bookmark.sheet), name('Fit')],
      }),
    );
  }
  return { First: refs[0], Last: refs.at(-1) };
}

const styles = { decimal: 'D', roman: 'r', none: undefined } as const;

/** The number tree of page labels; it must begin at sheet 0 (ISO 32000-1, 12.4.2). */
export function labelTree(labels: readonly PlanLabel[]): PdfDict | undefined {
  if (labels.length === 0) return undefined;
  const sorted = [...labels].sort((a, b) => a.sheet - b.sheet);
  const first: PlanLabel = { sheet: 0, style: 'decimal', prefix: '', start: 1 };
  const whole = sorted[0]?.sheet === 0 ? sorted : [first, ...sorted];
  const nums = whole.flatMap((label): PdfValue[] => {
    const style = styles[label.style];
    const entries = dict({
      S: style === undefined ? undefined : name(style),
      P: label.prefix === '' ? undefined : textString(label.prefix),
      St: style === undefined || label.start === 1 ? undefined : label.start,
    });
    return [label.sheet, entries];
  });
  return dict({ Nums: nums });
}
