import type { CostTable } from '../../store/index.ts';
import type { CostBook } from '../../vocabulary/costs.ts';
import { onLot } from '../context.ts';
import type { costRows } from '../contract/cost-requests.ts';
import { requests } from '../contract/requests.ts';
import { drawNamed, invoiceNamed, lineNamed, noticeNamed, orderNamed, rowById } from './cost-named.ts';
import { acted } from './record-card.ts';

type What = (typeof costRows)[number];

interface Goes {
  readonly table: CostTable;
  readonly id: string;
  readonly title: string;
}

function goes(book: CostBook, what: What, said: string): Goes {
  switch (what) {
    case 'cost-line': {
      const { id, title } = lineNamed(book, said);
      return { table: 'cost_line', id, title: `the cost line ${title}` };
    }
    case 'change-order': {
      const { id, number } = orderNamed(book, said);
      return { table: 'change_order', id, title: `change order ${number}` };
    }
    case 'invoice': {
      const { id, payee } = invoiceNamed(book, said);
      return { table: 'invoice', id, title: `an invoice of ${payee}` };
    }
    case 'payment': {
      const { id, invoice } = rowById(book.payments, said, 'payment');
      return { table: 'payment', id, title: `a payment to ${rowById(book.invoices, invoice, 'invoice').payee}` };
    }
    case 'waiver': {
      const { id, kind } = rowById(book.waivers, said, 'waiver');
      return { table: 'waiver', id, title: `a waiver, ${kind}` };
    }
    case 'notice': {
      const { id, supplier } = noticeNamed(book, said);
      return { table: 'supplier_notice', id, title: `the notice of ${supplier}` };
    }
    case 'draw': {
      const { id, number } = drawNamed(book, said);
      return { table: 'draw', id, title: `draw ${number}` };
    }
  }
}

export const removeCost = onLot(requests['remove-cost'], ({ what, row }, at) => {
  const { table, id, title } = goes(at.lot.costs(), what, row);
  return acted(at, `Took away ${title}`, () => at.lot.removeCost(table, id));
});
