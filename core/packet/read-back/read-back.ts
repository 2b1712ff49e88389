import { closeSync } from 'node:fs';
import { Aside, type EqualSpan } from '../link/aside.ts';
import type { InTheMaking } from '../link/link-packet.ts';
import { type OpenSource, openKept, readSource } from '../link/open-sources.ts';
import { type LinkControl, Pace } from '../link/pace.ts';
import { walkPages } from '../link/page-walk.ts';
import { PdfFile } from '../link/syntax/pdf-file.ts';
import type { LinkOrder, LinkResult } from '../link-order.ts';
import { followPapers } from './check-papers.ts';
import { checkStructure } from './check-structure.ts';
import { misread } from './misread.ts';

/** What was checked on the finished file; a file that fails a check throws instead. */
export interface ReadBackReport {
  readonly pages: number;
  readonly bookmarks: number;
  /** Links of written sheets that lead where they should. */
  readonly links: number;
  /** Written sheets whose words came back. */
  readonly sheets: number;
  /** Streams of papers found in their place and equal to the kept bytes. */
  readonly streams: number;
}

/** A finished file to be looked at, and the kept papers it was made from. */
interface Looked {
  readonly order: LinkOrder;
  readonly path: string;
  readonly file: PdfFile;
  readonly sources: readonly OpenSource[];
  readonly pace: Pace;
}

/**
 * Reopens a finished file: an independent reader checks pages, sizes, labels, outline, links and written words; then
 * every page is followed to its source, every copied stream compared with the kept bytes, and the whole hashed.
 * @param result what linking said of it.
 * @throws LotfileError `internal` when anything differs from the order or from what linking said; `stopped`.
 */
export async function readBack(
  order: LinkOrder,
  path: string,
  result: Pick<LinkResult, 'sha256' | 'bytes'>,
  control: LinkControl = {},
): Promise<ReadBackReport & Pick<LinkResult, 'sha256' | 'bytes'>> {
  const aside = new Aside();
  const fds: number[] = [];
  const open = (at: string, title: string): number => {
    const fd = openKept(at, title);
    fds.push(fd);
    return fd;
  };
  try {
    const file = new PdfFile(order.title, open(path, order.title));
    const sources = order.sources.map((source, index) =>
      readSource(source, { index, fd: open(source.path, source.title) }),
    );
    const pace = new Pace(control);
    const { seen, pairs } = await look({ order, path, file, sources, pace });
    const inOrder = pairs.toSorted((a, b) => a.at - b.at);
    const { sha256, differsAt } = await aside.look(file.fd, file.size, inOrder);
    if (differsAt !== undefined) throw differing(order, differsAt);
    if (sha256 !== result.sha256 || file.size !== result.bytes) {
      throw misread(order.title, 'the disk gives other bytes than were written');
    }
    pace.check();
    return { ...seen, sha256, bytes: file.size };
  } finally {
    await aside.end();
    for (const fd of fds) closeSync(fd);
  }
}

/**
 * The same look at a packet that has no name yet. Linking hashes it and compares what it copied, in one pass over what
 * lies on the disk; here every stream that belongs to a page is found to be one of those, from the very same place.
 * @throws LotfileError `internal` when anything differs from the order; `stopped`.
 */
export async function readBackUnnamed(
  order: LinkOrder,
  made: InTheMaking,
  control: LinkControl = {},
): Promise<ReadBackReport> {
  const { path, sources, copied } = made;
  const file = new PdfFile(order.title, openKept(path, order.title));
  try {
    const { seen, pairs } = await look({ order, path, file, sources, pace: new Pace(control) });
    const strange = pairs.find((pair) => !isSame(pair, copied.get(pair.at)));
    if (strange !== undefined) throw differing(order, strange.at);
    return seen;
  } finally {
    file.close();
  }
}

async function look(at: Looked): Promise<{ readonly seen: ReadBackReport; readonly pairs: readonly EqualSpan[] }> {
  const { order, path, file, sources, pace } = at;
  const { sizes, ...structure } = await checkStructure(order, path, pace);
  const pairs = await followPapers({ order, finished: { file, pages: walkPages(file) }, sources, sizes, pace });
  return { seen: { ...structure, streams: pairs.length }, pairs };
}

function isSame(pair: EqualSpan, copied: EqualSpan | undefined): boolean {
  return copied?.fd === pair.fd && copied.from === pair.from && copied.length === pair.length;
}

function differing(order: LinkOrder, at: number): Error {
  return misread(order.title, `at byte ${at} it differs from the kept paper`);
}
