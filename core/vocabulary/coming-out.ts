import { type Errand, type VisitOutcome, visitOutcomes } from './practice.ts';

/** Somebody comes out to the site for it: every inspection, and every other errand that wants things ready there. */
export function comesOut({ inspection, onSite = [] }: Pick<Errand, 'inspection' | 'onSite'>): boolean {
  return inspection || onSite.length > 0;
}

/**
 * The words a visit of this errand may be left with: those its practice lists, and that it was cancelled, which may
 * befall any; where it lists none, any that can be said there. Whoever takes papers may turn one away. A letter in lieu stands for an inspection, so where nobody inspects it has to be listed.
 */
export function outcomesOf({
  inspection,
  outcomes = [],
}: Pick<Errand, 'inspection' | 'outcomes'>): readonly VisitOutcome[] {
  const befalling = inspection ? (['cancelled'] as const) : (['cancelled', 'turned away'] as const);
  if (outcomes.length > 0) return [...new Set([...outcomes, ...befalling])];
  return visitOutcomes.filter((outcome) => outcome !== (inspection ? 'turned away' : 'letter in lieu'));
}
