import { HashAside } from '../link/hash-aside.ts';
import { openKept } from '../link/open-sources.ts';
import { type LinkControl, Pace } from '../link/pace.ts';
import { walkPages } from '../link/page-walk.ts';
import { PdfFile } from '../link/syntax/pdf-file.ts';
import type { LinkOrder, LinkResult } from '../link-order.ts';
import { PaperCheck } from './check-papers.ts';
import { checkStructure } from './check-structure.ts';
import { misread } from './misread.ts';

/** What was checked on the finished file; a file that fails a check throws instead. */
export interface ReadBackReport {
  readonly sha256: string;
  readonly bytes: number;
  readonly pages: number;
  readonly bookmarks: number;
  /** Links of written sheets that lead where they should. */
  readonly links: number;
  /** Written sheets whose words came back. */
  readonly sheets: number;
  /** Streams of papers found in their place and equal to the kept bytes. */
  readonly streams: number;
}

/**
 * Reopens a finished file: an independent reader checks pages, sizes, labels, outline, links and written words; then
 * every page is followed to its source and every copied stream compared with the kept bytes, while the whole is hashed.
 * @param result what linking said of it; undefined where linking itself compares the bytes (its `check`).
 * @throws LotfileError `internal` when anything differs from the order or from what linking said; `stopped`.
 */
export async function readBack(
  order: LinkOrder,
  path: string,
  result: Pick<LinkResult, 'sha256' | 'bytes'> | undefined,
  control: LinkControl = {},
): Promise<ReadBackReport> {
  const pace = new Pace(control);
  const aside = new HashAside();
  const file = new PdfFile(order.title, openKept(path, order.title));
  let papers: PaperCheck | undefined;
  try {
    const hash = aside.whole(file.fd);
    hash.catch(() => undefined);
    const seen = await checkStructure(order, path, pace);
    papers = new PaperCheck(order, { file, pages: walkPages(file) }, aside);
    const streams = await papers.follow(pace);
    const differsAt = await papers.differsAt();
    if (differsAt !== undefined) throw misread(order.title, `at byte ${differsAt} it differs from the kept paper`);
    const sha256 = await hash;
    if (result !== undefined && (sha256 !== result.sha256 || file.size !== result.bytes)) {
      throw misread(order.title, 'the disk gives other bytes than were written');
    }
    pace.check();
    return { ...seen, sha256, bytes: file.size, streams };
  } finally {
    await aside.end();
    papers?.close();
    file.close();
  }
}
