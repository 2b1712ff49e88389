import { type Asked, readErrand, readHolds } from '../../readiness/index.ts';
import type { Way } from '../../vocabulary/finding.ts';
import type { HoldRow } from '../contract/screen-answers.ts';
import { kindTitle } from '../named.ts';
import { errandTitle } from './asked.ts';

/** What may not be done yet: holds that wait for an errand, or hang on a question nobody answered. */
export function shutHolds(asked: Asked): readonly HoldRow[] {
  return readHolds(asked)
    .filter(
      ({ waitsFor, happened, applies }) => happened === undefined && (waitsFor.length > 0 || applies === 'unknown'),
    )
    .map(({ hold, event, title, say, waitsFor, applies }) => ({
      hold,
      event,
      title,
      say,
      waitsFor: waitsFor.map((id) => errandTitle(asked.practice, id)),
      unknown: applies === 'unknown',
    }));
}

/** Titles of papers no errand brings, that errands with nothing else before them wait for. */
export function beginWith(found: Way, asked: Asked): readonly string[] {
  const waiting = found.stops.filter(({ state, waitsFor }) => state === "can't go yet" && waitsFor.length === 0);
  const missing = waiting.flatMap(({ errand: id, subject }) =>
    readErrand(id, { ...asked, subject }).findings.filter(
      // What they only like to see is nothing to begin with.
      ({ sort, weight, remedy }) => sort === 'missing' && weight !== 'good to know' && remedy.errand === undefined,
    ),
  );
  return [...new Set(missing.flatMap(({ kind }) => (kind === undefined ? [] : [kindTitle(asked.practice, kind)])))];
}
