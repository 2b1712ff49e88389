import type { PaperRow } from '../../core/desk/contract/answers.ts';
import type { Day } from '../../core/vocabulary/days.ts';

/** The day a paper's life begins: that it was issued, else that it is in force from. */
export function beginsOf({ issuedDay, inForceDay }: Pick<PaperRow, 'issuedDay' | 'inForceDay'>): Day | undefined {
  return issuedDay ?? inForceDay;
}
