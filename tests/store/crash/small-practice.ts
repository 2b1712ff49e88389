import type { Practice } from '../../../core/vocabulary/practice.ts';

/** A practice that asks for nothing: what is kept here are loose papers. */
export const smallPractice: Practice = {
  title: 'Brindlemoor County practice',
  layers: ['common'],
  offices: {},
  questions: {},
  events: {},
  papers: {},
  errands: {},
  agreements: {},
  duties: {},
  holds: {},
  holidays: [],
};

export const smallLayers = [{ name: 'common', text: 'title: Brindlemoor County practice\n' }] as const;
