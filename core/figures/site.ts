import type { Day } from '../vocabulary/days.ts';
import type { FactValue } from '../vocabulary/facts.ts';
import type { Figure } from './figure.ts';

function ofDay(day: Day | undefined): FactValue | 'unknown' {
  return day === undefined ? 'unknown' : { sort: 'day', value: day };
}

const caution = 'Taken from the engagement as you noted it.';

/** Days of the engagement (or other subject) that an agreement is asked for. */
export const siteFigures: readonly Figure[] = [
  {
    id: 'on_site_from',
    title: 'First day on site',
    unit: 'date',
    source: 'The engagement',
    caution,
    needs: {},
    compute: (_, { subject }) => ofDay(subject?.from),
  },
  {
    id: 'on_site_to',
    title: 'Last day on site',
    unit: 'date',
    source: 'The engagement; while it has no end, the day asked about',
    caution,
    needs: {},
    compute: (_, { subject, day }) => {
      if (subject === undefined) return 'unknown';
      return ofDay(subject.to ?? (subject.from !== undefined && subject.from > day ? subject.from : day));
    },
  },
  {
    id: 'today',
    title: 'The day asked about',
    unit: 'date',
    source: 'The day of the visit',
    caution,
    needs: {},
    compute: (_, { day }) => ofDay(day),
  },
];
