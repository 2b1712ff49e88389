import type { SubjectId, Visit } from '../vocabulary/lot.ts';
import type { Cents, FeeDue } from '../vocabulary/money.ts';
import type { ErrandId } from '../vocabulary/practice.ts';
import { isSettled } from './errand-case.ts';
import { type Asked, type ErrandCase, errandOf, indexLot, type Standpoint } from './standpoint.ts';
import { neverTaken, visitsMade } from './visits.ts';

/** Somebody came, and it was not passed or nobody let them in: who comes again has to be paid again. */
function inVain({ outcome }: Visit): boolean {
  return outcome === 'fail' || outcome === 'no access';
}

/** An office's price for coming a second time stands in for its fee once somebody came in vain. */
export function feeDueOf(at: Standpoint, one: ErrandCase): FeeDue {
  const { fee, feeNote, againFee } = one.errand;
  const again = visitsMade(at, one.errand, one.subject).some(inVain) && !isSettled(at, one);
  return again && againFee !== undefined
    ? { fee: againFee, feeNote: 'for coming again', again }
    : { fee, feeNote, again, ...(neverTaken(at, one.errand, one.subject) ? { unpaid: true } : {}) };
}

/** @throws LotfileError 'not found' for an errand the practice doesn't know. */
export function feeDue(errand: ErrandId, asked: Asked & { readonly subject?: SubjectId | undefined }): FeeDue {
  const at = indexLot(asked);
  return feeDueOf(at, { errand: errandOf(at, errand), subject: asked.subject });
}

export interface FeesAgain {
  /** How often they came again after coming in vain. */
  readonly times: number;
  /** Cents for each of those times; undefined where nobody noted a price. */
  readonly each: Cents | undefined;
}

/**
 * What was owed for coming again and stays a cost, whatever came of it: once for each coming in vain that another
 * coming followed. The price is the one `feeDue` counted while it was still ahead.
 * @throws LotfileError 'not found' for an errand the practice doesn't know.
 */
export function feesAgain(errand: ErrandId, asked: Asked & { readonly subject?: SubjectId | undefined }): FeesAgain {
  const at = indexLot(asked);
  const one = { errand: errandOf(at, errand), subject: asked.subject };
  const visits = visitsMade(at, one.errand, one.subject);
  const { fee, againFee = fee } = one.errand;
  // A result kept without its visit tells of a coming as well.
  const settled = isSettled(at, one);
  const last = visits.findLastIndex(({ outcome }) => outcome !== 'cancelled');
  return { times: visits.filter((visit, n) => inVain(visit) && (settled || n < last)).length, each: againFee };
}
