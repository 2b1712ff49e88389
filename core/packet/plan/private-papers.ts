import type { Delivery } from '../../vocabulary/practice.ts';
import type { PlanTab } from '../plan-model.ts';

/**
 * What is told before a private paper goes a way that others can look into. At a counter or an upload page it is asked
 * for by name and given to whoever asked.
 * @param kept what kind of private it is, in words; nothing for an open paper.
 */
export function privacyNotes(kept: string | undefined, place: PlanTab['place'], { way }: Delivery): readonly string[] {
  if (kept === undefined || (place !== 'inside' && place !== 'beside')) return [];
  if (way === 'e-mail') return [`${kept} It goes by e-mail: see that the address is the one they gave you.`];
  return way === 'site binder' ? [`${kept} Whoever opens the site binder can read it.`] : [];
}
