import type { Day } from '../vocabulary/days.ts';
import { ofNoRule } from '../vocabulary/privacy.ts';
import type { Lapse } from './lapses.ts';
import { isThere } from './standing.ts';
import { kindOf, type Standpoint } from './standpoint.ts';
import { dayWords } from './words.ts';

/** Papers of the owner's own titles, which no rule knows, that lapse from today to a day: seen, though nobody here asks. */
export function ownLapses(at: Standpoint, until: Day): readonly Lapse[] {
  return at.lot.papers.flatMap((paper): readonly Lapse[] => {
    if ((paper.kind !== ofNoRule && kindOf(at, paper.kind) !== undefined) || paper.notApplicable !== undefined)
      return [];
    const edition = paper.editions.findLast((each) => each.readable && isThere(each, at.day));
    const by = edition?.goodThrough;
    if (edition === undefined || by === undefined || by < at.day || by > until) return [];
    return [
      {
        by,
        finding: {
          weight: 'good to know',
          sort: 'lapsing',
          kind: paper.kind,
          paper: paper.id,
          edition: edition.id,
          say: `"${paper.title}" is good through ${dayWords(by)} only.`,
          why: 'No rule on file knows what it is for; the day is the one you noted.',
          basis: { on: 'common practice' },
          remedy: { say: 'If it is still needed, ask whoever gave it for a new one in time.' },
          final: false,
        },
      },
    ];
  });
}
