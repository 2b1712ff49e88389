import type { Desk } from '../../core/desk/desk.ts';
import type { Day } from '../../core/desk/door.ts';

/** Invented money for the sample lot, as it stands while framing goes on. */
const lines = [
  ['Survey, soil work, permits', 'fees', '14,200', undefined],
  ['Clearing and drive', 'work', '21,500', '20,900'],
  ['Well', 'work', '16,800', '16,800'],
  ['Septic system', 'work', '24,600', '24,600'],
  ['Foundation and slab', 'work', '43,000', '44,250'],
  ['Framing', 'work', '68,400', '67,900'],
  ['Roof covering', 'work', '22,300', undefined],
  ['Windows and doors', 'work', '27,100', undefined],
  ['Electrical', 'work', '26,400', '26,400'],
  ['Plumbing', 'work', '24,800', '25,150'],
  ['Heating and cooling', 'work', '21,900', undefined],
  ['Insulation and board', 'work', '31,600', undefined],
  ['Finishes', 'work', '52,000', undefined],
  ['Contingency', 'contingency', '96,000', undefined],
  ['Land', 'land', '62,000', '62,000'],
] as const;

const firms: Readonly<Record<string, string>> = {
  Framing: 'Quillfeather Framing',
  Electrical: 'Wrenhollow Electric',
  Plumbing: 'Dovesink Plumbing',
};

export interface OpenLot {
  readonly desk: Desk;
  readonly lot: string;
  readonly on: Day;
}

async function bill(
  { desk, lot, on }: OpenLot,
  said: { line: string; payee?: string; amount: string; number: string; day: Day },
  settled?: { paid: Day; waiver?: boolean },
): Promise<void> {
  const { payee, ...rest } = said;
  const { row } = await desk.ask('invoice', payee === undefined ? rest : { ...rest, payee }, { lot, on });
  await desk.ask(
    'waiver',
    { invoice: row, kind: 'conditional progress', day: said.day, through: said.day },
    { lot, on },
  );
  if (settled === undefined) return;
  const { paid, waiver = true } = settled;
  await desk.ask('payment', { invoice: row, day: paid, cleared: paid, how: 'cheque' }, { lot, on });
  if (waiver) {
    await desk.ask(
      'waiver',
      { invoice: row, kind: 'unconditional progress', day: paid, through: said.day },
      { lot, on },
    );
  }
}

/** Notes an estimate, invoices, a supplier's notice, change orders and two draws in an open lot. */
export async function noteMoney(open: OpenLot): Promise<void> {
  const { desk, lot, on } = open;
  for (const [title, sort, estimate, agreed] of lines) {
    const firm = firms[title];
    await desk.ask(
      'cost-line',
      { title, sort, estimate, ...(agreed && { agreed }), ...(firm && { firm }) },
      { lot, on },
    );
  }
  await bill(
    open,
    { line: 'Clearing and drive', payee: 'Marshgate Earthworks', amount: '20,900', number: '2207', day: '2026-03-20' },
    { paid: '2026-03-27' },
  );
  await bill(
    open,
    { line: 'Well', payee: 'Coldspring Drilling', amount: '16,800', number: 'W-118', day: '2026-03-24' },
    { paid: '2026-03-31' },
  );
  await bill(
    open,
    {
      line: 'Survey, soil work, permits',
      payee: 'Hartwell Surveying',
      amount: '4,150',
      number: 'HS-77',
      day: '2026-03-25',
    },
    { paid: '2026-03-30' },
  );
  const first = { 'Clearing and drive': '20,900', Well: '16,800', 'Survey, soil work, permits': '4,150' };
  await desk.ask('draw', { day: '2026-03-28', work: first, retainage: 10, storedRetainage: 5 }, { lot, on });
  await desk.ask('draw', { row: '1', asked: '2026-03-28', paid: '2026-04-02' }, { lot, on });
  await desk.ask(
    'notice',
    {
      supplier: 'Tall Timber Supply',
      firm: 'Quillfeather Framing',
      day: '2026-04-06',
      since: '2026-04-08',
      delivers: 'trusses and sheathing',
    },
    { lot, on },
  );
  await bill(open, { line: 'Framing', amount: '18,500', number: 'Q-0412', day: '2026-04-12' });
  await bill(open, {
    line: 'Septic system',
    payee: 'Loamfield Septic',
    amount: '9,840.50',
    number: '5510',
    day: '2026-04-11',
  });
  await desk.ask(
    'change-order',
    { line: 'Framing', amount: '2,350', title: 'Deeper porch beam', fromContingency: true, day: '2026-04-09' },
    { lot, on },
  );
  await desk.ask(
    'change-order',
    { line: 'Plumbing', amount: '-640', title: 'One hose bib less', day: '2026-04-10' },
    { lot, on },
  );
  const second = { Framing: '15,000', 'Septic system': '9,840.50' };
  await desk.ask('draw', { day: '2026-04-13', work: second, stored: { Framing: '3,500' } }, { lot, on });
}

/** A firm that is on site without a paper, and another that takes framing over in the middle. */
export async function noteFirms({ desk, lot, on }: OpenLot): Promise<void> {
  const earthworks = {
    firm: 'Marshgate Earthworks',
    trade: 'earthwork',
    from: '2026-03-16',
    to: '2026-05-08',
  } as const;
  await desk.ask('engage', earthworks, { lot, on });
  const taking = {
    firm: 'Quillfeather Framing',
    by: 'Alder and Ash Framing',
    day: '2026-09-14',
    until: '2026-11-20',
  } as const;
  await desk.ask('change-firm', taking, { lot, on });
  await desk.ask('engage', { firm: 'Eavesborough Roofing', trade: 'roofing' }, { lot, on });
}
