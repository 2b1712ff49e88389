import { create } from 'zustand';
import type { CostRow, DrawRow, InvoiceRow } from '../../../core/desk/contract/cost-answers.ts';

/** Which slip lies over the ledger. */
export type CostSlip =
  | { readonly slip: 'line'; readonly row?: CostRow | undefined; readonly contingency?: boolean | undefined }
  | { readonly slip: 'change order'; readonly row?: CostRow | undefined }
  | { readonly slip: 'invoice'; readonly line?: string | undefined; readonly row?: InvoiceRow | undefined }
  | { readonly slip: 'payment'; readonly invoice: InvoiceRow }
  /** `payment`: the one the waiver goes with. */
  | { readonly slip: 'waiver'; readonly invoice: InvoiceRow; readonly payment?: string | undefined }
  | { readonly slip: 'draw'; readonly row?: DrawRow | undefined };

interface CostsState {
  readonly slip: CostSlip | undefined;
}

export const useCosts = create<CostsState>()(() => ({ slip: undefined }));

export function layOver(slip: CostSlip): void {
  useCosts.setState({ slip });
}

export function putAway(): void {
  useCosts.setState({ slip: undefined });
}
