import { LotfileError } from '../../vocabulary/errors.ts';
import type { Edition, EditionId, Paper } from '../../vocabulary/lot.ts';
import type { EditionContent, PacketOrder } from '../plan-model.ts';

/** An edition of the lot with its paper. */
export interface Found {
  readonly paper: Paper;
  readonly edition: Edition;
}

/** @throws LotfileError 'not found' where pages that should be there were not handed over. */
export function contentOf(order: PacketOrder, { paper, edition }: Found): EditionContent | undefined {
  const content = order.contents[edition.id];
  if (content === undefined && edition.pages > 0 && edition.readable) throw noContent(paper.title);
  return content;
}

/** What was purged, or can't be read, would be an empty tab: it counts as missing. */
export function isUsable({ edition }: Found, content: EditionContent | undefined): boolean {
  if (edition.physicalOnly) return true;
  return edition.readable && content !== undefined && content.pages.length + content.originals.length > 0;
}

/** Why a paper that is in hand doesn't go in. */
export function unusableNote({ paper, edition }: Found): string {
  const why = edition.readable ? 'has no pages in the lot folder' : "can't be read";
  return `"${paper.title}" ${why}: it can't go in. Keep it again from a good copy.`;
}

/** The pages or files of a paper of the order were not handed over. */
export function noContent(title: string): LotfileError {
  return new LotfileError('not found', `The pages of "${title}" are not in the lot folder.`, {
    about: title,
    next: 'Keep the paper again from its file, then assemble the packet.',
  });
}

/** @throws LotfileError 'not found' where the lot no longer holds it. */
export function findEdition(order: PacketOrder, id: EditionId): Found {
  for (const paper of order.lot.papers) {
    const edition = paper.editions.find((one) => one.id === id);
    if (edition !== undefined) return { paper, edition };
  }
  throw new LotfileError('not found', 'A paper chosen for this packet is no longer in the lot.', {
    next: 'Look at the papers again and choose anew.',
  });
}
