import { type Asked, validityOf } from '../../readiness/index.ts';
import type { Edition, LotView } from '../../vocabulary/lot.ts';
import type { KindId } from '../../vocabulary/practice.ts';
import { editionIn } from '../named.ts';

/** Some errand takes a paper of this kind only for so long after its day of issue. */
function mustBeFresh({ practice }: Asked, kind: KindId): boolean {
  return Object.values(practice.errands).some(({ needs }) =>
    needs.some(({ fresh, kinds }) => fresh !== undefined && kinds.includes(kind)),
  );
}

/**
 * What is not known of an edition, so that nobody can say how long it is good or how old it is: "the day it was issued
 * is not known". Undefined where its dates say all that is asked of them.
 */
export function undatedWhy(edition: Edition, kind: KindId, asked: Asked): string | undefined {
  const { good, clocks } = validityOf(edition, asked);
  if (good === 'unknown')
    return clocks.find(({ through }) => through === 'unknown')?.why ?? 'a date on it is not known';
  return edition.issued === undefined && mustBeFresh(asked, kind) ? 'the day it was issued is not known' : undefined;
}

/** The same of an edition that was kept this moment. */
export function undatedNow(id: string, kind: KindId, asked: Asked & { readonly lot: LotView }): string | undefined {
  const edition = editionIn(asked.lot, id);
  return edition === undefined ? undefined : undatedWhy(edition, kind, asked);
}
