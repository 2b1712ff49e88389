import type { SubjectId } from '../vocabulary/lot.ts';
import type { FeeDue } from '../vocabulary/money.ts';
import type { ErrandId } from '../vocabulary/practice.ts';
import { isSettled } from './errand-case.ts';
import { type Asked, type ErrandCase, errandOf, indexLot, type Standpoint } from './standpoint.ts';
import { visitsMade } from './visits.ts';

/** An office's price for coming a second time stands in for its fee once somebody came in vain. */
export function feeDueOf(at: Standpoint, one: ErrandCase): FeeDue {
  const { fee, feeNote, againFee } = one.errand;
  const again =
    visitsMade(at, one.errand, one.subject).some(({ outcome }) => outcome === 'fail' || outcome === 'no access') &&
    !isSettled(at, one);
  return again && againFee !== undefined
    ? { fee: againFee, feeNote: 'for coming again', again }
    : { fee, feeNote, again };
}

/** @throws LotfileError 'not found' for an errand the practice doesn't know. */
export function feeDue(errand: ErrandId, asked: Asked & { readonly subject?: SubjectId | undefined }): FeeDue {
  const at = indexLot(asked);
  return feeDueOf(at, { errand: errandOf(at, errand), subject: asked.subject });
}
