import type { Errand } from './practice.ts';

/** Somebody comes out to the site for it: every inspection, and every other errand that wants things ready there. */
export function comesOut({ inspection, onSite = [] }: Pick<Errand, 'inspection' | 'onSite'>): boolean {
  return inspection || onSite.length > 0;
}
