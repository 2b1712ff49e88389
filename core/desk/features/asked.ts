import type { Asked } from '../../readiness/index.ts';
import type { ClockReading, Finding, Remedy, Validity } from '../../vocabulary/finding.ts';
import { throughInWords } from '../../vocabulary/in-words.ts';
import type { LotView } from '../../vocabulary/lot.ts';
import type { Errand, Practice } from '../../vocabulary/practice.ts';
import { ofNoRule } from '../../vocabulary/privacy.ts';
import type { AtLot } from '../context.ts';
import type { RemedyRow } from '../contract/answers.ts';
import type { ClockRow, OfficeCard } from '../contract/shown-rows.ts';
import { kindTitle } from '../named.ts';

/** Small rows that several answers share. */

/** The standpoint of a request: this lot, its practice, the day asked about. */
export function askedOf({ lot, day }: Pick<AtLot, 'lot' | 'day'>): Asked {
  return { practice: lot.practice(), lot: lot.view(), day };
}

/** An office as one goes there; of who must appear and when, the errand's own word goes before the office's. */
export function officeCard(practice: Practice, id: string, errand?: Errand): OfficeCard {
  const office = Object.hasOwn(practice.offices, id) ? practice.offices[id] : undefined;
  const { title = id, sort = 'owner', street, phone, hours, intakeUntil, payee, pays } = office ?? {};
  return {
    id,
    title,
    sort,
    street,
    phone,
    hours,
    intakeUntil,
    payee,
    pays,
    appear: errand?.appear ?? office?.appear,
    appointment: errand?.appointment ?? office?.appointment,
  };
}

export function officeTitle(practice: Practice, id: string): string {
  return (Object.hasOwn(practice.offices, id) ? practice.offices[id]?.title : undefined) ?? id;
}

export function errandTitle(practice: Practice, id: string): string {
  return (Object.hasOwn(practice.errands, id) ? practice.errands[id]?.title : undefined) ?? id;
}

export function subjectTitle(view: LotView, subject: string | undefined): string | undefined {
  return subject === undefined ? undefined : view.subjects.find(({ id }) => id === subject)?.title;
}

/** "Contractor licence, Quillfeather Framing": a title with whose it is. */
export function titleFor(title: string, subject: string | undefined): string {
  return subject === undefined ? title : `${title}, ${subject}`;
}

/** The paper a finding is about as its card has it: by its kind, or by its own title where no rule knows it. */
export function titleOfFound({ kind, subject, paper }: Finding, { practice, lot }: Asked): string {
  const own = kind === ofNoRule ? lot.papers.find(({ id }) => id === paper)?.title : undefined;
  return titleFor(own ?? (kind === undefined ? '' : kindTitle(practice, kind)), subjectTitle(lot, subject));
}

function clockRow({ label, through, why }: ClockReading): ClockRow {
  return { label, words: `${label}: ${throughInWords(through)}`, why };
}

export function clockRows(validity: Validity | undefined): readonly ClockRow[] {
  return (validity?.clocks ?? []).map(clockRow);
}

/** The errand a remedy names, with its titles. */
export function remedyRow(practice: Practice, remedy: Remedy | undefined): RemedyRow | undefined {
  const errand = remedy?.errand === undefined ? undefined : practice.errands[remedy.errand];
  if (errand === undefined) return undefined;
  const office = officeTitle(practice, errand.office);
  return { errand: errand.id, title: errand.title, office, earliest: remedy?.earliest };
}
