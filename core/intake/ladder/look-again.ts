import type { PageReader } from '../pdfium/page-reader.ts';
import type { PageSight } from '../pdfium/read-page.ts';

/** A page of one file and the page of another that should look the same. */
export interface TwoPages {
  readonly one: { readonly reader: PageReader; readonly index: number };
  readonly other: { readonly reader: PageReader; readonly index: number };
  /** About how much of the file the page takes. */
  readonly bytes: number;
  differs(one: PageSight, other: PageSight): string | undefined;
}

export type LookedAt =
  | { readonly ok: true; readonly one: PageSight; readonly other: PageSight }
  | { readonly ok: false; readonly why: string };

const looks = 4;

/**
 * Compares two pages. The reader draws a font that is not in the file now this way, now that (the same page of the same
 * file in up to a handful of looks): what differs is looked at again, with both files opened afresh, and counts only
 * where no look at the one is like any look at the other.
 */
export async function compareTwo({ one, other, bytes, differs }: TwoPages): Promise<LookedAt> {
  const seen: { readonly one: PageSight; readonly other: PageSight }[] = [];
  let why = '';
  for (let look = 0; look < looks; look += 1) {
    const first = await one.reader.read(one.index, bytes);
    const second = await other.reader.read(other.index, bytes);
    if (first === undefined || second === undefined) return { ok: false, why: 'it can not be read' };
    const difference = differs(first, second);
    if (difference === undefined) return { ok: true, one: first, other: second };
    if (look === 0) why = difference;
    for (const before of seen) {
      if (differs(before.one, second) === undefined) return { ok: true, one: before.one, other: second };
      if (differs(first, before.other) === undefined) return { ok: true, one: first, other: before.other };
    }
    seen.push({ one: first, other: second });
    if (!(await one.reader.openAfresh()) || !(await other.reader.openAfresh())) break;
  }
  return { ok: false, why };
}
