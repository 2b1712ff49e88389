import type { Agreement, Duty, Errand, EventId, Hold, KindId, Practice } from '../vocabulary/practice.ts';
import { type Calendar, calendarOf } from './calendar.ts';

/** Who yields, wants, restarts, causes what: read off the practice once. */
export interface PracticeIndex {
  readonly calendar: Calendar;
  readonly errands: readonly Errand[];
  /** Place of an errand in the practice file. */
  readonly place: ReadonlyMap<string, number>;
  readonly yielders: ReadonlyMap<KindId, readonly Errand[]>;
  readonly wanters: ReadonlyMap<KindId, readonly Errand[]>;
  readonly restarters: ReadonlyMap<KindId, readonly Errand[]>;
  readonly causers: ReadonlyMap<EventId, readonly Errand[]>;
  readonly holdsOf: ReadonlyMap<EventId, readonly Hold[]>;
  readonly holdsUntil: ReadonlyMap<string, readonly Hold[]>;
  readonly dutiesOf: ReadonlyMap<KindId, readonly Duty[]>;
  /** The kind that a kind lengthens: septic-extension -> septic-permit. */
  readonly extended: ReadonlyMap<KindId, KindId>;
  readonly agreementsOn: ReadonlyMap<KindId, readonly Agreement[]>;
}

/** Groups items under each of their keys, keeping order and leaving out repeats. */
export function groupBy<T>(items: Iterable<T>, keysOf: (item: T) => readonly string[]): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const item of items) {
    for (const key of new Set(keysOf(item))) {
      const group = groups.get(key);
      if (group === undefined) groups.set(key, [item]);
      else group.push(item);
    }
  }
  return groups;
}

function agreementKinds(agreement: Agreement): readonly KindId[] {
  return agreement.terms.flatMap((term) => (term.of === 'paper' ? [term.kind] : []));
}

const indexes = new WeakMap<Practice, PracticeIndex>();

export function indexPractice(practice: Practice): PracticeIndex {
  const known = indexes.get(practice);
  if (known !== undefined) return known;
  const errands = Object.values(practice.errands);
  const made: PracticeIndex = {
    calendar: calendarOf(practice.holidays),
    errands,
    place: new Map(errands.map((errand, at) => [errand.id, at])),
    yielders: groupBy(errands, (errand) => errand.yields),
    wanters: groupBy(errands, (errand) => errand.needs.flatMap((need) => need.kinds)),
    restarters: groupBy(errands, (errand) => errand.restarts),
    causers: groupBy(errands, (errand) => errand.causes),
    holdsOf: groupBy(Object.values(practice.holds), (hold) => [hold.event]),
    holdsUntil: groupBy(Object.values(practice.holds), (hold) => hold.until),
    dutiesOf: groupBy(Object.values(practice.duties), (duty) => [duty.kind]),
    extended: new Map(
      Object.values(practice.papers).flatMap(({ id, extension }) =>
        extension === undefined ? [] : [[extension.by, id]],
      ),
    ),
    agreementsOn: groupBy(Object.values(practice.agreements), agreementKinds),
  };
  indexes.set(practice, made);
  return made;
}
