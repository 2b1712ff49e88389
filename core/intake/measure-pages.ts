import { statSync } from 'node:fs';
import type { PageFacts, SeenRect } from '../vocabulary/lot.ts';
import { differenceOf, differenceOfPicture, looksLost } from './judge.ts';
import type { KeepContext } from './keep-context.ts';
import { compareTwo } from './ladder/look-again.ts';
import { clearStrips } from './page/clear-strips.ts';
import { pageBytes } from './page/page-bytes.ts';
import { pageBalance } from './page/page-content.ts';
import type { PageEntry } from './page/page-tree.ts';
import { probeMarks, type Suspect } from './page/probe-marks.ts';
import { type SeenFrame, seenFrame } from './page/seen-frame.ts';
import type { PageReader } from './pdfium/page-reader.ts';
import type { PageSight } from './pdfium/read-page.ts';
import type { RegularFile } from './regular/regular-file.ts';
import { isList, nameOf } from './regular/values.ts';

export interface Measuring {
  readonly context: KeepContext;
  readonly original: PageReader;
  readonly kept: PageReader;
  readonly file: RegularFile;
  readonly pages: readonly PageEntry[];
  /** The pages are pictures of the original's: compared as such, and the text is the original's. */
  readonly asPictures: boolean;
  /** Which page of the original each kept page is; undefined for one that the reader does not find there. */
  readonly origins: readonly (number | undefined)[];
}

export type Measured =
  | { readonly ok: true; readonly pages: readonly PageFacts[]; readonly notes: readonly string[] }
  | { readonly ok: false; readonly why: string };

/** Facts of a page, and the same page once more where a mark on it has to be tried out first. */
interface Look {
  readonly facts: PageFacts;
  readonly suspect: Suspect | undefined;
}

/** The reader's frame and ours must agree, or a mark would land somewhere else than it was measured. */
function agrees(frame: SeenFrame, sight: PageSight): boolean {
  return (
    Math.abs(frame.width - sight.width * frame.unit) < 0.5 && Math.abs(frame.height - sight.height * frame.unit) < 0.5
  );
}

/** Annotations are drawn over the page and may hide a mark; links have no body. */
export function hasBodies(file: RegularFile, page: PageEntry): boolean {
  const list = file.resolve(page.dict.get('Annots'));
  if (!isList(list)) return false;
  return list.some((item) => {
    const sort = nameOf(file.resolve(file.dict(item).get('Subtype')));
    return sort !== 'Link' && sort !== 'Popup';
  });
}

function lookAt(
  { file }: Measuring,
  page: PageEntry,
  seen: { readonly sight: PageSight; readonly index: number; readonly bytes: number },
): Look {
  const { sight, index, bytes } = seen;
  const frame = seenFrame(file, page);
  const balance = pageBalance(file, page);
  const { openSaves, extraRestores } = balance ?? { openSaves: 0, extraRestores: 0 };
  const measurable = balance !== undefined && agrees(frame, sight);
  const strips: readonly SeenRect[] = measurable ? clearStrips(sight.raster, frame) : [];
  const { width, height } = frame;
  const facts = { page: index, width, height, clearStrips: strips, openSaves, extraRestores, bytes, text: sight.text };
  const odd = balance?.odd === true || openSaves > 0 || extraRestores > 0 || hasBodies(file, page);
  const suspect = odd && strips.length > 0 ? { index, page, frame, openSaves, extraRestores, strips } : undefined;
  return { facts, suspect };
}

/** Takes away the strips in which a mark would not show. */
async function tried(measuring: Measuring, looks: readonly Look[]): Promise<readonly PageFacts[]> {
  const suspects = looks.flatMap(({ suspect }) => (suspect === undefined ? [] : [suspect]));
  if (suspects.length === 0) return looks.map(({ facts }) => facts);
  const path = measuring.context.job.output;
  const kept = { path, file: measuring.file, length: statSync(path).size };
  const rasterOf = async (index: number) => (await measuring.kept.read(index, looks[index]?.facts.bytes ?? 0))?.raster;
  const proved = await probeMarks(kept, suspects, rasterOf);
  return looks.map(({ facts }) => ({ ...facts, clearStrips: proved.get(facts.page) ?? facts.clearStrips }));
}

/** What two looks at the same page told. */
type Compared = { readonly ok: true; readonly sight: PageSight } | { readonly ok: false; readonly why: string };

async function compared(measuring: Measuring, index: number, bytes: number): Promise<Compared> {
  const { original, kept, asPictures, origins } = measuring;
  const origin = origins[index];
  if (origin === undefined || !original.shows(origin)) {
    const sight = await kept.read(index, bytes);
    return sight === undefined ? { ok: false, why: `page ${index + 1} can't be read` } : { ok: true, sight };
  }
  const looked = await compareTwo({
    one: { reader: original, index: origin },
    other: { reader: kept, index },
    bytes,
    differs: asPictures ? differenceOfPicture : differenceOf,
  });
  if (!looked.ok) return { ok: false, why: `on page ${index + 1} ${looked.why}` };
  return { ok: true, sight: asPictures ? { ...looked.other, text: looked.one.text } : looked.other };
}

/**
 * Compares every page of the kept file with the original, and measures it. Stops at the first page that lost
 * something and says what.
 */
export async function measurePages(measuring: Measuring): Promise<Measured> {
  const { context, file, pages } = measuring;
  const bytes = pageBytes(file, pages);
  const looks: Look[] = [];
  const notes: string[] = [];
  for (const [index, page] of pages.entries()) {
    const share = bytes[index] ?? 0;
    const outcome = await compared(measuring, index, share);
    if (!outcome.ok) return outcome;
    const { sight } = outcome;
    if (looksLost(sight))
      notes.push(`Page ${index + 1} looks empty though it holds text: look at it before you use it.`);
    looks.push(lookAt(measuring, page, { sight, index, bytes: share }));
    await context.onPage(index + 1, pages.length);
  }
  return { ok: true, pages: await tried(measuring, looks), notes };
}
