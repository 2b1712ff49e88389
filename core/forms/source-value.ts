import { ownerLines, parcelOn, placeOn } from '../packet/plan/identity.ts';
import { happenedOn, kindOf, type Standpoint } from '../readiness/standpoint.ts';
import { type TermValue, termValue } from '../readiness/terms.ts';
import type { FactValue } from '../vocabulary/facts.ts';
import type { FormSource } from '../vocabulary/forms.ts';
import type { SubjectId } from '../vocabulary/lot.ts';
import type { Term } from '../vocabulary/practice.ts';
import type { ValueSeat } from './form-model.ts';
import { personsOf } from './owners.ts';

/** For whom a box is filled. */
export interface SourceCase {
  readonly at: Standpoint;
  readonly subject: SubjectId | undefined;
}

export type SourceValue =
  | { readonly is: 'known'; readonly value: FactValue; readonly from: string; readonly seat: ValueSeat }
  /** There is none and none is missed: a second owner where there is one. */
  | { readonly is: 'none'; readonly from: string; readonly seat: ValueSeat }
  | { readonly is: 'missing'; readonly from: string; readonly say: string; readonly seat: ValueSeat };

const names: ValueSeat = { at: 'names' };

function known(value: FactValue, from: string, seat: ValueSeat): SourceValue {
  return { is: 'known', value, from, seat };
}

const nth = ['first', 'second', 'third'];

function ownerValue({ at }: SourceCase, which: number | undefined): SourceValue {
  const from =
    which === undefined ? 'the owners, as printed' : `the ${nth[which - 1] ?? `${which}th`} owner, as printed`;
  const lines = ownerLines(at.lot, at.day);
  const [first] = lines;
  if (first === undefined) return { is: 'missing', from, say: 'No owner is noted yet.', seat: names };
  if (which === undefined) return known({ sort: 'name', value: lines.join(', ') }, from, names);
  const one = lines.length === 1 ? personsOf(first) : lines;
  if (one === undefined) {
    const say = `"${first}" can't be taken apart into persons: write this box by hand, or note each owner by a name of their own.`;
    return { is: 'missing', from, say, seat: names };
  }
  const person = one[which - 1];
  if (person === undefined) return { is: 'none', from, seat: names };
  return known({ sort: 'name', value: person }, from, names);
}

function identityValue({ at }: SourceCase, of: 'place' | 'parcel'): SourceValue {
  const value = of === 'place' ? placeOn(at.lot, at.day) : parcelOn(at.lot, at.day);
  const from = of === 'place' ? 'the place, as printed' : 'the parcel number, as printed';
  if (value === '') return { is: 'missing', from, say: `No ${of} is noted yet.`, seat: names };
  return known({ sort: of === 'place' ? 'address' : 'parcel number', value }, from, names);
}

function missingSay(found: Exclude<TermValue, { is: 'known' }>, term: Term, { at }: SourceCase): string {
  if (term.of === 'lot') return `Not answered yet: ${at.practice.questions[term.question]?.ask ?? term.question}`;
  if (found.is === 'no paper') return `"${kindOf(at, found.kind)?.title ?? found.kind}" is not in the lot.`;
  return `Not known yet: ${found.from}.`;
}

function termed(given: SourceCase, term: Term, seat: ValueSeat): SourceValue {
  const found = termValue({ ...given, chosen: new Map() }, term);
  if (found.is === 'known') return known(found.value, found.from, seat);
  const from = found.is === 'unknown' ? found.from : `"${kindOf(given.at, found.kind)?.title ?? found.kind}"`;
  return { is: 'missing', from, say: missingSay(found, term, given), seat };
}

function firmValue({ at, subject }: SourceCase, detail: 'firm' | 'trade' | 'from' | 'to'): SourceValue {
  const seat: ValueSeat = { at: 'firms' };
  const firm = subject === undefined ? undefined : at.index.subjects.get(subject);
  const from = `the ${detail === 'from' ? 'first day' : detail === 'to' ? 'last day' : detail} of ${firm?.title ?? 'the engagement'}`;
  if (firm === undefined) return { is: 'missing', from, say: 'This form is for no firm in particular.', seat };
  if (detail === 'firm') return known({ sort: 'name', value: firm.firm ?? firm.title }, 'your firms', seat);
  const none: SourceValue = { is: 'missing', from, say: `Of ${firm.title}, ${from} is not noted.`, seat };
  if (detail === 'trade')
    return firm.trade === undefined ? none : known({ sort: 'text', value: firm.trade }, from, seat);
  const day = firm[detail];
  return day === undefined ? none : known({ sort: 'day', value: day }, from, seat);
}

/** The value behind a box as of the day, where it comes from, or why there is none. */
export function sourceValue(given: SourceCase, source: FormSource): SourceValue {
  const { at } = given;
  switch (source.of) {
    case 'owner':
      return ownerValue(given, source.which);
    case 'place':
    case 'parcel':
      return identityValue(given, source.of);
    case 'lot':
      return termed(given, source, { at: 'question', question: source.question });
    case 'paper':
      return termed(given, source, { at: 'paper', kind: source.kind });
    case 'figure':
      return termed(given, source, { at: 'practice' });
    case 'office': {
      const office = at.practice.offices[source.office];
      const value = office?.[source.detail];
      const from = `the ${source.detail === 'title' ? 'name' : source.detail} of ${office?.title ?? source.office}`;
      const seat: ValueSeat = { at: 'practice' };
      if (value === undefined) return { is: 'missing', from, say: `Not known yet: ${from}.`, seat };
      return known({ sort: 'text', value }, from, seat);
    }
    case 'event': {
      const title = at.practice.events[source.event]?.title ?? source.event;
      const day = happenedOn(at, source.event);
      const from = `the day of "${title}"`;
      if (day === undefined)
        return { is: 'missing', from, say: `"${title}" has not been noted.`, seat: { at: 'events' } };
      return known({ sort: 'day', value: day }, from, { at: 'events' });
    }
    case 'firm':
      return firmValue(given, source.detail);
    case 'words':
      return known({ sort: 'text', value: source.words }, 'the mapping of this form', { at: 'practice' });
  }
}
