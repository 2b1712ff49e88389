import { type Asked, feeDue, readErrand } from '../../../readiness/index.ts';
import { outcomesOf } from '../../../vocabulary/coming-out.ts';
import type { WayStop } from '../../../vocabulary/finding.ts';
import { outcomeInWords } from '../../../vocabulary/in-words.ts';
import type { Visit } from '../../../vocabulary/lot.ts';
import type { Errand } from '../../../vocabulary/practice.ts';
import type { InspectionRow, MadeVisitRow } from '../../contract/inspection-answers.ts';
import { kindTitle } from '../../named.ts';
import { errandTitle, officeCard, subjectTitle } from '../asked.ts';
import { carryRow } from '../carry-row.ts';
import { recordedWords, visitsOf } from '../written/recorded.ts';
import { bookedRow, bookingRow, holdsOn } from './coming.ts';

function madeRow({ id, day, state, outcome, note }: Visit): MadeVisitRow {
  return { visit: id, day, state, outcome, words: outcome === undefined ? state : outcomeInWords(outcome), note };
}

export function inspectionRow(stop: WayStop, errand: Errand, asked: Asked): InspectionRow {
  const { practice, lot } = asked;
  const { subject } = stop;
  const reading = readErrand(errand.id, { ...asked, subject });
  const visits = visitsOf(asked, errand.id, subject).map(madeRow);
  const over = stop.state === 'settled';
  return {
    errand: errand.id,
    subject,
    subjectTitle: subjectTitle(lot, subject),
    title: errand.title,
    office: officeCard(practice, errand.office, errand),
    inspection: errand.inspection,
    state: stop.state,
    recorded: recordedWords(asked, errand, reading),
    earliest: stop.earliest,
    spare: stop.spare,
    heaviest: stop.heaviest,
    waitsFor: over ? [] : stop.waitsFor.map((id) => ({ errand: id, title: errandTitle(practice, id) })),
    onSite: errand.onSite ?? [],
    bring: errand.bring,
    ask: errand.ask,
    carry: reading.needs.map((need) => carryRow(need, errand, asked)),
    withThem: reading.withThem,
    booking: over || reading.withThem !== undefined ? undefined : bookingRow(errand, stop.earliest, asked),
    booked: over ? undefined : bookedRow(errand, subject, asked),
    fee: errand.fee,
    feeNote: errand.feeNote,
    againFee: errand.againFee,
    again: feeDue(errand.id, { ...asked, subject }).again,
    outcomes: outcomesOf(errand),
    yields: errand.yields.map((kind) => ({ kind, title: kindTitle(practice, kind) })),
    holds: holdsOn(errand, asked),
    restarts: errand.restarts.map((kind) => kindTitle(practice, kind)),
    visits,
    caution: errand.caution,
  };
}
