import { type Asked, stillCounting } from '../../../readiness/index.ts';
import type { Lot } from '../../../store/index.ts';
import type { WayStop } from '../../../vocabulary/finding.ts';
import { outcomeInWords } from '../../../vocabulary/in-words.ts';
import type { CorrectionsRow } from '../../contract/inspection-answers.ts';
import { errandTitle, subjectTitle, titleFor } from '../asked.ts';
import { commentsOn } from '../with-them.ts';
import { visitsOf } from '../written/recorded.ts';

/** Corrections by their number, of every visit that still counts, newest first. */
export function correctionRows(stops: readonly WayStop[], asked: Asked, lot: Lot): readonly CorrectionsRow[] {
  const rows = stops.flatMap(({ errand, subject }) =>
    stillCounting(visitsOf(asked, errand, subject)).flatMap((visit): readonly CorrectionsRow[] => {
      const comments = commentsOn(lot, [visit]);
      if (comments.length === 0) return [];
      return [
        {
          visit: visit.id,
          errand,
          subject,
          title: titleFor(errandTitle(asked.practice, errand), subjectTitle(asked.lot, subject)),
          day: visit.day,
          words: visit.outcome === undefined ? visit.state : outcomeInWords(visit.outcome),
          comments,
          open: comments.filter(({ answered }) => answered === undefined).length,
        },
      ];
    }),
  );
  // By their day alone: an answer given must not move what somebody is just reading.
  return rows.toSorted((a, b) => (a.day < b.day ? 1 : a.day > b.day ? -1 : 0));
}
