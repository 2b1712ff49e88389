import type { Asked } from '../../../readiness/index.ts';
import type { Lot } from '../../../store/index.ts';
import type { WayStop } from '../../../vocabulary/finding.ts';
import type { Visit } from '../../../vocabulary/lot.ts';
import type { CorrectionsRow } from '../../contract/inspection-answers.ts';
import { errandTitle, subjectTitle, titleFor } from '../asked.ts';
import { commentsOn } from '../with-them.ts';
import { outcomeWords, visitsOf } from '../written/recorded.ts';

/** What a later visit settled is closed by it; corrections that came with the pass itself stay open until answered. */
export function standing(visits: readonly Visit[]): readonly Visit[] {
  const settled = visits.findLastIndex(
    ({ state, outcome }) =>
      state === 'settled' && outcome !== 'partial' && outcome !== 'no access' && outcome !== 'cancelled',
  );
  return settled < 0 ? visits : visits.slice(settled);
}

/** Corrections by their number, of every visit that still counts; those with something open first, newest first. */
export function correctionRows(stops: readonly WayStop[], asked: Asked, lot: Lot): readonly CorrectionsRow[] {
  const rows = stops.flatMap(({ errand, subject }) =>
    standing(visitsOf(asked, errand, subject)).flatMap((visit): readonly CorrectionsRow[] => {
      const comments = commentsOn(lot, [visit]);
      if (comments.length === 0) return [];
      return [
        {
          visit: visit.id,
          errand,
          subject,
          title: titleFor(errandTitle(asked.practice, errand), subjectTitle(asked.lot, subject)),
          day: visit.day,
          words: visit.outcome === undefined ? visit.state : outcomeWords(visit.outcome),
          comments,
          open: comments.filter(({ answered }) => answered === undefined).length,
        },
      ];
    }),
  );
  const order = rows.toSorted((a, b) => (a.day < b.day ? 1 : a.day > b.day ? -1 : 0));
  return [...order.filter(({ open }) => open > 0), ...order.filter(({ open }) => open === 0)];
}
