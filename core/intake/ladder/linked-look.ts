import { rmSync } from 'node:fs';
import { linkPacket } from '../../packet/link/index.ts';
import type { LinkOrder } from '../../packet/link-order.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { PageFacts } from '../../vocabulary/lot.ts';
import { fileHash } from '../file-hash.ts';
import { differenceElsewhere } from '../judge.ts';
import type { KeepContext } from '../keep-context.ts';
import { PageReader } from '../pdfium/page-reader.ts';
import { compareTwo } from './look-again.ts';

interface Kept {
  readonly facts: readonly PageFacts[];
  readonly kept: PageReader;
  /** Pages worth a look: the others' content is copied byte for byte. */
  readonly look: readonly number[];
}

/** The order for a packet that holds the pages of one kept file and nothing else. */
export function aloneInPacket(path: string, title: string, facts: readonly PageFacts[]): LinkOrder {
  const source = { id: 'paper', path, sha256: fileHash(path), title };
  const pages = facts.map(({ page, openSaves, extraRestores }) => {
    return { source: source.id, page, turn: 0 as const, openSaves, extraRestores, links: [] };
  });
  return { title, subject: '', language: 'en-US', sources: [source], pages, bookmarks: [], labels: [] };
}

async function firstDifference(linked: PageReader, { facts, kept, look }: Kept): Promise<string | undefined> {
  if (linked.pageCount !== facts.length) return `a packet of it has ${linked.pageCount} pages`;
  for (const index of look) {
    const looked = await compareTwo({
      one: { reader: kept, index },
      other: { reader: linked, index },
      bytes: facts[index]?.bytes ?? 0,
      differs: differenceElsewhere,
    });
    if (!looked.ok) return `on page ${index + 1} of a packet ${looked.why}`;
  }
  return undefined;
}

/**
 * Links the kept pages into a packet of their own and looks at it: what can't be assembled, or looks otherwise when
 * it is, shows on the day of keeping and not on the day of the visit.
 * @returns what differs, or undefined where nothing does
 */
export async function linkedPagesLook(context: KeepContext, pages: Kept): Promise<string | undefined> {
  const path = context.scrap(2);
  try {
    await linkPacket(aloneInPacket(context.job.output, context.job.name, pages.facts), path);
    const linked = await PageReader.open(path);
    if (linked === undefined) return 'a packet of it does not open';
    try {
      return await firstDifference(linked, pages);
    } finally {
      linked.close();
    }
  } catch (problem) {
    if (problem instanceof LotfileError && problem.code === 'disk') throw problem;
    return 'it can not be put into a packet';
  } finally {
    rmSync(path, { force: true });
  }
}
