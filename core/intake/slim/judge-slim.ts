import { differenceOfPicture } from '../judge.ts';
import { PageReader } from '../pdfium/page-reader.ts';
import type { PageSight } from '../pdfium/read-page.ts';

/** Mean difference of grey values over a page: 2 to 3 is what a strong JPEG makes of grainy paper. */
const allowedMean = 5;

function meanDifference(a: Uint8Array, b: Uint8Array): number {
  let sum = 0;
  for (let index = 0; index < a.length; index += 1) sum += Math.abs((a[index] ?? 0) - (b[index] ?? 0));
  return sum / Math.max(1, a.length);
}

/** @returns what is worse than it may be, or undefined */
export function slimDifference(before: PageSight, after: PageSight): string | undefined {
  if (before.text !== after.text) return 'the text differs';
  const why = differenceOfPicture(before, after);
  if (why !== undefined) return why;
  const mean = meanDifference(before.raster.pixels, after.raster.pixels);
  return mean > allowedMean ? 'the picture differs all over' : undefined;
}

export type Judged =
  | { readonly ok: true; readonly worse: ReadonlySet<number> }
  | { readonly ok: false; readonly why: string };

/** Looks at every page of both files: pages that lost too much are named. */
export async function judgeSlim(
  before: string,
  after: string,
  onPage: (done: number, of: number) => Promise<void>,
): Promise<Judged> {
  const [one, other] = [await PageReader.open(before), await PageReader.open(after)];
  try {
    if (one === undefined || other === undefined) return { ok: false, why: 'the smaller file does not open' };
    if (one.pageCount !== other.pageCount) return { ok: false, why: 'pages are missing' };
    const worse = new Set<number>();
    for (let index = 0; index < one.pageCount; index += 1) {
      const [was, is] = [await one.read(index, 1_000_000), await other.read(index, 1_000_000)];
      if (was === undefined || is === undefined) return { ok: false, why: `page ${index + 1} can't be read` };
      if (slimDifference(was, is) !== undefined) worse.add(index);
      await onPage(index + 1, one.pageCount);
    }
    return { ok: true, worse };
  } finally {
    one?.close();
    other?.close();
  }
}
