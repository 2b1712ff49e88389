import { type Asked, currentEdition, readErrands } from '../../../readiness/index.ts';
import { dayInWords } from '../../../vocabulary/days.ts';
import type { ErrandReading } from '../../../vocabulary/finding.ts';
import { outcomeInWords } from '../../../vocabulary/in-words.ts';
import type { Visit } from '../../../vocabulary/lot.ts';
import type { Errand } from '../../../vocabulary/practice.ts';
import { kindTitle } from '../../named.ts';
import { officeTitle, subjectTitle, titleFor } from '../asked.ts';

/** What is recorded of an errand, in words that never say more than the record does. */
export interface Recorded {
  readonly errand: Errand;
  readonly subject: string | undefined;
  readonly title: string;
  readonly settled: boolean;
  /** "passed inspection recorded on 3 Aug 2026 by Building inspection". */
  readonly say: string;
  readonly more: readonly string[];
}

/** Visits made by the day, oldest first. */
export function visitsOf(asked: Asked, errand: string, subject?: string): readonly Visit[] {
  return asked.lot.visits
    .filter(
      (visit) =>
        visit.errand === errand &&
        visit.state !== 'planned' &&
        visit.day <= asked.day &&
        (subject === undefined || visit.subject === subject),
    )
    .toSorted((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
}

/** The results in hand of what an errand yields, with number and day. */
export function resultLines(asked: Asked, errand: Errand, subject?: string): readonly string[] {
  return errand.yields.flatMap((kind) => {
    const edition = currentEdition({ kind, subject }, asked);
    if (edition === undefined) return [];
    const number = edition.number === undefined ? '' : ` No. ${edition.number}`;
    const day = edition.issued === undefined ? '' : `, ${dayInWords(edition.issued)}`;
    const by = edition.issuer === undefined ? '' : `, ${edition.issuer}`;
    return [`In hand: ${kindTitle(asked.practice, kind)}${number}${day}${by}`];
  });
}

function settledWords(asked: Asked, errand: Errand, reading: ErrandReading): string {
  const visit = visitsOf(asked, errand.id, reading.subject).findLast(({ state }) => state === 'settled');
  const what = errand.inspection ? 'passed inspection recorded on' : 'recorded as settled on';
  const corrected = visit?.outcome === 'pass with corrections' ? ', with corrections' : '';
  if (visit !== undefined)
    return `${what} ${dayInWords(visit.day)} by ${officeTitle(asked.practice, errand.office)}${corrected}`;
  const edition = errand.yields.flatMap((kind) => currentEdition({ kind, subject: reading.subject }, asked) ?? [])[0];
  const day = edition?.issued ?? edition?.received;
  const by = edition?.issuer ?? officeTitle(asked.practice, errand.office);
  return day === undefined ? 'recorded as settled' : `${what} ${dayInWords(day)} by ${by}`;
}

function openWords(asked: Asked, errand: Errand, reading: ErrandReading): string {
  const visit = visitsOf(asked, errand.id, reading.subject).at(-1);
  const said =
    visit === undefined
      ? ''
      : ` · ${visit.outcome === undefined ? visit.state : outcomeInWords(visit.outcome)} on ${dayInWords(visit.day)}`;
  return `not recorded as settled${said}`;
}

/** What is recorded of one errand, in words that never say more than the record does. */
export function recordedWords(asked: Asked, errand: Errand, reading: ErrandReading): string {
  return reading.state === 'settled' ? settledWords(asked, errand, reading) : openWords(asked, errand, reading);
}

/** The latest planned visit on or after the day. */
export function bookedVisit(asked: Asked, errand: string, subject?: string): Visit | undefined {
  return asked.lot.visits
    .filter(
      (visit) =>
        visit.errand === errand &&
        visit.state === 'planned' &&
        visit.day >= asked.day &&
        (subject === undefined || visit.subject === subject),
    )
    .toSorted((a, b) => (a.day < b.day ? -1 : 1))[0];
}

/** One row per firm or area an errand is run for; none where it doesn't apply here. */
export function recordedOf(asked: Asked, id: string): readonly Recorded[] {
  const errand = asked.practice.errands[id];
  if (errand === undefined) return [];
  return readErrands(id, asked)
    .filter(({ state }) => state !== "doesn't apply")
    .map((reading) => {
      const settled = reading.state === 'settled';
      const booked = bookedVisit(asked, id, reading.subject);
      return {
        errand,
        subject: reading.subject,
        title: titleFor(errand.title, subjectTitle(asked.lot, reading.subject)),
        settled,
        say: recordedWords(asked, errand, reading),
        more: [
          ...resultLines(asked, errand, reading.subject),
          ...(booked === undefined ? [] : [`Booked for ${dayInWords(booked.day)}.`]),
        ],
      };
    });
}
