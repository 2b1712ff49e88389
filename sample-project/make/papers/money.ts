import { type PDFDict, PDFName, PDFString } from 'pdf-lib';
import { house, owners, place } from '../cast.ts';
import { Book } from '../kit/book.ts';
import { Flow } from '../kit/flow.ts';
import { firmHead, formHead, styles } from '../kit/heads.ts';

const usd = (dollars: number): string => `$${dollars.toLocaleString('en-US')}`;

/** Cost lines of the house, land left out. They add up to the valuation on the application. */
export const costLines: readonly (readonly [string, string, number])[] = [
  ['Plans, permits, survey stakes', 'owner', 9_800],
  ['Clearing, driveway, pipe', 'Muddle & Sons Earthworks', 21_400],
  ['Footings, slab, termite treatment', 'Muddle & Sons; Grubb Pest', 38_900],
  ['Septic system', 'Muddle & Sons Earthworks', 17_600],
  ['Well, pump, tank', 'Stillpot Well Drilling', 14_300],
  ['Framing labor', 'Quillfeather Framing', 34_500],
  ['Lumber, trusses, sheathing', 'Fennmark Truss Works; yard', 58_700],
  ['Roof, siding, trim', 'owner; Quillfeather', 41_200],
  ['Windows and outside doors', 'yard', 18_900],
  ['Plumbing', 'Dovesink Plumbing', 26_300],
  ['Electrical', 'Wrenhollow Electric', 24_800],
  ['Heat pump, ducts', 'Cobblestone Air', 19_600],
  ['Insulation, wallboard, paint', 'owner', 32_400],
  ['Floors, cabinets, fixtures', 'owner', 28_500],
  ['Temporary power, toilet, dumpster', 'owner', 5_700],
  ['Kept back for surprises', '', 5_800],
];

export const costTotal = costLines.reduce((sum, [, , dollars]) => sum + dollars, 0);

export async function costBreakdown(revision: 'A' | 'C'): Promise<Uint8Array> {
  const dated =
    revision === 'A'
      ? { day: '2026-02-16', words: 'February 16, 2026', pen: '2-16-26' }
      : { day: '2026-04-15', words: 'April 15, 2026', pen: '4-15-26' };
  const book = await Book.open({
    title: `Cost breakdown ${revision}`,
    day: dated.day,
    faces: ['human', 'humanBold', 'slabBold'],
  });
  const flow = firmHead(new Flow(book, styles.lender), 'Saltgrass Savings Bank', [
    'Construction Lending',
    '4 Wharf Street, Lower Brindle',
  ]);
  flow.para('Cost breakdown by the owner-builder', { bold: true, size: 13 });
  flow.pairs([
    ['Borrowers', owners.both],
    ['Place', `${place.house}, Parcel ${place.parcel}`],
    ['From plans', `Ostrey Drafting, revision ${revision}, 1,860 sq ft heated`],
    ['Date', dated.words],
  ]);
  flow.table(
    [
      ['', 'Part of the work', 'By', 'Amount'],
      ...costLines.map(([part, who, dollars], i) => [String(i + 1), part, who, usd(dollars)]),
      ['', 'Total to build, land left out', '', usd(costTotal)],
    ],
    { widths: [6, 42, 34, 18], align: ['right', 'left', 'left', 'right'], size: 9 },
  );
  flow.pairs(
    [
      ['Value when finished, with land', usd(house.completed + house.land)],
      ['Land, owned and paid', usd(house.land)],
      ['Value when finished, land left out', usd(house.completed)],
    ],
    200,
  );
  flow.signed(owners.first, 'borrower', dated.pen).signed(owners.second, 'borrower', dated.pen);
  return book.bytes();
}

export async function commitment(): Promise<Uint8Array> {
  const book = await Book.open({
    title: 'Loan commitment CL-26-0093',
    day: '2026-02-20',
    faces: ['human', 'humanBold', 'slabBold'],
  });
  const flow = firmHead(new Flow(book, styles.lender), 'Saltgrass Savings Bank', [
    'Construction Lending',
    '4 Wharf Street, Lower Brindle',
  ]);
  flow.para('February 20, 2026').para(`${owners.both}\n77 Cooper Street, Lower Brindle`);
  flow.para('Commitment for a construction loan, CL-26-0093', { bold: true, size: 13 });
  flow.pairs([
    ['Place', `${place.house} (${place.lot}), Parcel ${place.parcel}`],
    ['Amount', '$340,000.00'],
    [
      'Value when finished',
      `${usd(house.completed + house.land)} with land (${usd(house.completed)} house, ${usd(house.land)} land)`,
    ],
    ['Draws', 'six, by part of the work, 10 % held back'],
    ['Commitment good through', 'May 21, 2026, for closing'],
    ['Finished by', 'March 9, 2027'],
  ]);
  flow.heading('We need, before closing');
  for (const [text, on] of [
    ['Deed and survey', true],
    ['Cost breakdown', true],
    ['Septic permit, good on the closing day', true],
    ["Builder's risk binder naming the bank as mortgagee, not less than the value when finished, land left out", true],
  ] as const)
    flow.tick(text, on);
  flow.heading('We need, before the first draw');
  for (const text of [
    'Building permit',
    "Builder's risk policy in place of the binder",
    'Notice of commencement recorded after the mortgage',
  ])
    flow.tick(text, false);
  flow.para('No clearing that can be seen, no delivery and no work before the mortgage is recorded.', { bold: true });
  flow.signed('Hesper Dunmore', 'Construction Loan Officer', '2-20-26');
  return book.bytes({ packed: false });
}

const agency = ['Penhallick Insurance Agency', '40 Mill Row, Lower Brindle', 'Agent: Ysolde Penhallick'] as const;

interface Cover {
  readonly title: string;
  readonly number: string;
  readonly day: string;
  readonly from: string;
  readonly to: string;
  readonly sum: string;
  readonly form: string;
  readonly text: readonly string[];
  readonly pen: string;
}

async function cover(look: Cover): Promise<Uint8Array> {
  const book = await Book.open({ title: `${look.title} ${look.number}`, day: look.day, faces: ['human', 'humanBold'] });
  const flow = firmHead(new Flow(book, styles.insurer), 'Larkmoor Mutual', agency);
  flow.para(look.title, { bold: true, size: 15 });
  flow.fields(
    [
      [2, 'Number', look.number],
      [3, 'Insured', owners.both],
    ],
    { height: 34 },
  );
  flow.fields(
    [
      [3, 'Place insured', `${place.house}, Brindlemoor County`],
      [2, 'Parcel', place.parcel],
    ],
    { height: 34 },
  );
  flow.fields(
    [
      [1, 'In force from', look.from],
      [1, 'Good through', look.to],
    ],
    { height: 34 },
  );
  flow.fields(
    [
      [1, 'Sum insured, building, land left out', look.sum],
      [1, 'Form', look.form],
    ],
    { height: 34 },
  );
  flow.fields([[1, 'Mortgagee', 'Saltgrass Savings Bank, 4 Wharf Street, Lower Brindle, loan CL-26-0093']], {
    height: 34,
  });
  flow.gap(8);
  for (const text of look.text) flow.para(text);
  flow.signed('Ysolde Penhallick', 'agent for Larkmoor Mutual', look.pen);
  return book.bytes();
}

export const binder = (): Promise<Uint8Array> =>
  cover({
    title: "Builder's Risk Binder",
    number: 'BR-B-26-0551',
    day: '2026-03-19',
    pen: '3-19-26',
    from: 'March 20, 2026, 12:01 AM',
    to: 'April 19, 2026 (30 days)',
    sum: usd(house.completed),
    form: 'one dwelling being built, completed value',
    text: [
      'This binder covers the building while it is built, and material on the site, for the risks of the policy to be issued, until the policy takes its place or the day above, whichever is sooner.',
      'Kept back by the insured on each loss: $2,500. Theft of material not yet built in: $15,000.',
      'Cover ends when the house is lived in. Tell the agent before anybody moves in.',
    ],
  });

export const policy = (): Promise<Uint8Array> =>
  cover({
    title: "Builder's Risk Policy, Declarations",
    number: 'BR-26-10077',
    day: '2026-04-15',
    pen: '4-15-26',
    from: 'March 20, 2026, 12:01 AM',
    to: 'March 20, 2027',
    sum: usd(house.completed),
    form: 'one dwelling being built, completed value',
    text: [
      'This policy takes the place of binder BR-B-26-0551 without a gap.',
      'Premium $1,612.00, paid. Kept back by the insured on each loss: $2,500.',
      'Cover ends at the earliest of: the day above; the day another policy takes its place; 60 days after the house is finished and lived in; cancellation.',
      'Ask for an extension at least 30 days before the day above if the house is not finished.',
    ],
  });

export const homeBinder = (): Promise<Uint8Array> =>
  cover({
    title: "Homeowner's Binder",
    number: 'HO-B-27-0219',
    day: '2027-03-09',
    pen: '3-9-27',
    from: 'March 12, 2027, 12:01 AM',
    to: 'April 11, 2027 (30 days)',
    sum: usd(431_000),
    form: 'dwelling, replacement cost',
    text: [
      "This binder covers the finished dwelling until the policy is issued. Builder's risk BR-26-10077 stays in force until March 20, 2027; do not cancel it before this binder is confirmed in writing.",
      'Kept back by the insured on each loss: $1,500.',
    ],
  });

export async function homeApplication(): Promise<Uint8Array> {
  const book = await Book.open({
    title: "Homeowner's application",
    day: '2027-02-22',
    faces: ['human', 'humanBold', 'sansBold'],
  });
  const flow = firmHead(new Flow(book, styles.insurer), 'Larkmoor Mutual', agency);
  flow.para("Application for Homeowner's Insurance (change from builder's risk)", { bold: true, size: 14 });
  flow.fields([
    [3, 'Applicants', owners.both],
    [2, "Builder's risk policy", 'BR-26-10077'],
  ]);
  flow.fields([
    [3, 'Place', `${place.house}, Brindlemoor County`],
    [2, 'Parcel', place.parcel],
  ]);
  flow.fields([
    [2, 'Wanted from', 'March 12, 2027'],
    [2, 'Sum insured, land left out', usd(431_000)],
    [2, 'Year built', '2026-2027'],
  ]);
  flow.fields([
    [1, 'Heated area', '1,860 sq ft'],
    [1, 'Stories', '1'],
    [1, 'Frame', 'wood, slab'],
    [1, 'Roof', 'shingle, 2026'],
  ]);
  flow.fields([
    [2, 'Heat', 'heat pump'],
    [2, 'Water', 'private well'],
    [2, 'Sewage', 'septic EH-24-0317'],
    [2, 'Flood zone', 'X'],
  ]);
  flow.gap(8);
  for (const [text, on] of [
    ['Smoke and carbon monoxide alarms, joined', true],
    ['Wood stove', false],
    ['Fire hydrant within 1,000 ft', false],
    ['Fire station within 5 miles (Lower Brindle, 3.8)', true],
    ['Trampoline or pool', false],
  ] as const)
    flow.tick(text, on);
  flow.heading('Sent with it');
  for (const text of [
    'Certificate of occupancy (follows)',
    'Photographs, four sides',
    'Termite certificate',
    'Final electrical and plumbing result',
  ])
    flow.tick(text, text !== 'Certificate of occupancy (follows)');
  flow.para(
    'What stands here is true as far as we know. This application binds nobody; cover begins with a written binder.',
  );
  flow.signed(owners.first, 'applicant', '2-22-27').gap(6).signed(owners.second, 'applicant', '2-22-27');
  return book.bytes();
}

/** A draughtsman's invoice from a program that puts a script into it: it runs when the file is opened. */
export async function invoice(): Promise<Uint8Array> {
  const book = await Book.open({
    title: 'Invoice 1187',
    day: '2026-03-10',
    faces: ['human', 'humanBold', 'slab', 'slabBold'],
  });
  const flow = firmHead(new Flow(book, styles.trade), 'Ostrey Drafting', ['Loft 3, Ropewalk Yard', 'Lower Brindle']);
  flow.para('Invoice 1187', { bold: true, size: 18 });
  flow.pairs(
    [
      ['To', owners.both],
      ['For', `House plans, ${place.house}`],
      ['Date', 'March 10, 2026'],
      ['Due', 'April 9, 2026'],
    ],
    80,
  );
  flow.table(
    [
      ['Work', 'Hours', 'Rate', 'Amount'],
      ['Revision B, twelve sheets', '22', '$65.00', '$1,430.00'],
      ['Site plan from the survey', '4', '$65.00', '$260.00'],
      ['Two prints, 24 x 36', '', '', '$68.00'],
      ['To pay', '', '', '$1,758.00'],
    ],
    { widths: [52, 14, 16, 18], align: ['left', 'right', 'right', 'right'], rule: 'lines' },
  );
  flow.para('Thank you. Prints are billed again when plans change after pick-up.');
  const { context } = book.doc;
  const script = (code: string): PDFDict => context.obj({ Type: 'Action', S: 'JavaScript', JS: PDFString.of(code) });
  book.catalogue('OpenAction', context.register(script("app.alert('This invoice is due. Pay now?');")));
  const names = context.obj({
    Names: [PDFString.of('due'), context.register(script('var due = new Date(2026, 3, 9);'))],
  });
  book.catalogue('Names', context.obj({ JavaScript: names }));
  flow.leaf.page.node.set(PDFName.of('AA'), context.obj({ O: script('this.print({bUI: true});') }));
  return book.bytes();
}

export async function lienReleases(): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Releases, last draw', day: '2027-02-19', faces: ['sans', 'sansBold'] });
  for (const [firm, sum, pen] of [
    ['Quillfeather Framing', '$3,450.00', '2-17-27'],
    ['Wrenhollow Electric', '$2,480.00', '2-18-27'],
    ['Dovesink Plumbing', '$2,630.00', '2-19-27'],
  ] as const) {
    const flow = formHead(new Flow(book, styles.building), {
      office: 'Saltgrass Savings Bank, draw 6',
      title: 'Release by a Firm on Last Payment',
      number: 'CL-26-0093',
    });
    flow.fields([
      [2, 'Firm', firm],
      [2, 'Place', place.house],
      [1, 'Paid', sum],
    ]);
    flow
      .gap(10)
      .para(
        'The wording of a release is fixed by the State and stands on the official form. This page only shows where it lies in an invented sample.',
      );
    flow.signed(firm, 'by its owner', pen);
  }
  return book.bytes();
}
