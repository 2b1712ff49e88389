import type { Day } from '../vocabulary/days.ts';
import type { FactValue } from '../vocabulary/facts.ts';
import type { FactId } from '../vocabulary/practice.ts';
import { linkedTo } from './current.ts';
import type { Entry } from './lot-index.ts';
import type { Standpoint } from './standpoint.ts';

/** What an edition says with its amendments laid over it, oldest first. */
export interface WholeEdition {
  readonly facts: Readonly<Record<FactId, FactValue>>;
  readonly marks: readonly string[];
  readonly revision: string | undefined;
  readonly goodThrough: Day | undefined;
}

export function wholeOf(at: Standpoint, entry: Entry): WholeEdition {
  const { edition } = entry;
  const amendments = linkedTo(at, entry, 'amends').map((from) => from.edition);
  if (amendments.length === 0) return asItStands(edition);
  const last = <T>(pick: (one: typeof edition) => T | undefined): T | undefined =>
    [edition, ...amendments].map(pick).findLast((value) => value !== undefined);
  return {
    facts: Object.assign({}, edition.facts, ...amendments.map((amendment) => amendment.facts)),
    marks: [...new Set([edition, ...amendments].flatMap((one) => one.marks))],
    revision: last((one) => one.revision),
    goodThrough: last((one) => one.goodThrough),
  };
}

function asItStands(edition: Entry['edition']): WholeEdition {
  return { facts: edition.facts, marks: edition.marks, revision: edition.revision, goodThrough: edition.goodThrough };
}

function ofDay(value: Day | undefined): FactValue | undefined {
  return value === undefined ? undefined : { sort: 'day', value };
}

function ofText(sort: 'text' | 'revision' | 'name', value: string | undefined): FactValue | undefined {
  return value === undefined ? undefined : { sort, value };
}

/** A fact of an edition: what was read from it, or what every edition carries anyway (dates, number, revision). */
export function factOf(at: Standpoint, entry: Entry, fact: FactId): FactValue | undefined {
  const whole = wholeOf(at, entry);
  if (Object.hasOwn(whole.facts, fact)) return whole.facts[fact];
  switch (fact) {
    case 'issued':
      return ofDay(entry.edition.issued);
    case 'effective':
      return ofDay(entry.edition.effective ?? entry.edition.issued);
    case 'good_through':
      return ofDay(whole.goodThrough);
    case 'received':
      return ofDay(entry.edition.received);
    case 'number':
      return ofText('text', entry.edition.number);
    case 'issuer':
      return ofText('name', entry.edition.issuer);
    case 'revision':
      return ofText('revision', whole.revision);
    default:
      return undefined;
  }
}
