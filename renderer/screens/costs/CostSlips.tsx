import type { CostsAnswer } from '../../../core/desk/contract/cost-answers.ts';
import { putAway, useCosts } from './costs-store.ts';
import { DrawSlip } from './DrawSlip.tsx';
import { InvoiceSlip } from './InvoiceSlip.tsx';
import { LineSlip } from './LineSlip.tsx';
import { OrderSlip } from './OrderSlip.tsx';
import { PaymentSlip } from './PaymentSlip.tsx';
import { WaiverSlip } from './WaiverSlip.tsx';

/** The slip that lies over the ledger, where one does. */
export function CostSlips({ costs }: { readonly costs: CostsAnswer }) {
  const slip = useCosts((state) => state.slip);
  if (slip === undefined) return null;
  switch (slip.slip) {
    case 'line':
      return <LineSlip costs={costs} row={slip.row} onClose={putAway} />;
    case 'change order':
      return <OrderSlip costs={costs} row={slip.row} onClose={putAway} />;
    case 'invoice':
      return <InvoiceSlip costs={costs} row={slip.row} onClose={putAway} />;
    case 'payment':
      return <PaymentSlip invoice={slip.invoice} onClose={putAway} />;
    case 'waiver':
      return <WaiverSlip costs={costs} invoice={slip.invoice} payment={slip.payment} onClose={putAway} />;
    case 'draw':
      return <DrawSlip costs={costs} row={slip.row} onClose={putAway} />;
  }
}
