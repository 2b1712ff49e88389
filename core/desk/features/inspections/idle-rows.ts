import {
  type Asked,
  feeDue,
  type IdleReading,
  readErrand,
  readIdleClocks,
  validityOf,
} from '../../../readiness/index.ts';
import { addDays, daysBetween, spanInWords } from '../../../vocabulary/days.ts';
import type { IdleRow } from '../../contract/inspection-answers.ts';
import { entryIn, kindTitle } from '../../named.ts';
import { clockRows, errandTitle, subjectTitle, titleFor } from '../asked.ts';
import { bookingRow } from './coming.ts';

function restartRow({ restart }: IdleReading, asked: Asked): IdleRow['restart'] {
  const errand = restart === undefined ? undefined : asked.practice.errands[restart.errand];
  if (restart === undefined || errand === undefined) return undefined;
  const { subject, earliest, inTime } = restart;
  const { withThem } = readErrand(errand.id, { ...asked, subject });
  const { fee, feeNote } = feeDue(errand.id, { ...asked, subject });
  return {
    errand: errand.id,
    subject,
    title: titleFor(errandTitle(asked.practice, errand.id), subjectTitle(asked.lot, subject)),
    fee,
    feeNote,
    earliest,
    inTime,
    waits: earliest !== undefined && earliest > asked.day,
    withThem,
    booking: withThem === undefined ? bookingRow(errand, earliest, asked) : undefined,
  };
}

/** Which permit lapses for want of an inspection, on which day, and what would start its clock anew. */
export function idleRows(asked: Asked): readonly IdleRow[] {
  return readIdleClocks(asked).flatMap((reading): readonly IdleRow[] => {
    const { kind, edition: id, clock, through, since } = reading;
    const entry = entryIn(asked.lot, id);
    if (entry === undefined) return [];
    const validity = validityOf(entry.edition, asked);
    return [
      {
        kind,
        title: kindTitle(asked.practice, kind),
        number: entry.edition.number ?? '',
        paper: entry.paper.id,
        through,
        lapses: addDays(through, 1),
        days: daysBetween(asked.day, through),
        span: spanInWords(clock.span),
        since: clock.since,
        last: since,
        restart: restartRow(reading, asked),
        extendable: asked.practice.papers[kind]?.extension !== undefined,
        askBy: validity.askBy,
        clocks: clockRows(validity),
      },
    ];
  });
}
