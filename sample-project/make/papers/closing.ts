import { county, owners, place } from '../cast.ts';
import { Book } from '../kit/book.ts';
import { Flow } from '../kit/flow.ts';
import { firmHead, formHead, styles } from '../kit/heads.ts';

/** Framing that was not passed: what the inspector wrote, by number. */
export async function framingNotPassed(): Promise<Uint8Array> {
  const book = await Book.open({
    title: 'Inspection result IN-26-3185',
    day: '2026-09-10',
    faces: ['sans', 'sansBold'],
  });
  const flow = formHead(new Flow(book, styles.building), {
    office: `${county} Building Inspections`,
    title: 'Inspection Result: Framing',
    number: 'IN-26-3185',
  });
  flow.fields([
    [2, 'Permit', 'BP-26-0412'],
    [3, 'Place', place.shouted],
    [2, 'Parcel', place.parcel],
  ]);
  flow.fields([
    [2, 'Inspected', 'September 10, 2026'],
    [3, 'Inspector', 'Wilma Askeland'],
    [2, 'Result', 'NOT PASSED'],
  ]);
  flow.gap(8).para('Corrections, to be seen again before anything is covered:', { bold: true });
  for (const [i, text] of framingCorrections.entries()) flow.para(`${i + 1}.  ${text}`, { indent: 10 });
  flow.gap(4).para('Headers, straps and bedroom windows other than named above were looked at and are as drawn.');
  flow.para('A second inspection costs $45.00. Ask before 14:00 for the next working day.', { size: 8.5 });
  flow.signed('Wilma Askeland', 'Inspector', '9-10-26');
  flow.rubber([420, flow.y - 60], ['NOT PASSED', 'SEPTEMBER 10, 2026'], { colour: [0.6, 0.15, 0.1], angle: 5 });
  return book.bytes();
}

const framingCorrections = [
  'Trusses T2-5 and T2-6 over the hall are cut for the duct. Show the truss engineer’s own sheet for the repair, or new sheets.',
  'Header over the bedroom 2 window is 2 - 2x8 with one jack. Plans to be revised, or the header replaced.',
  'Hold-down at the north-east corner is not bolted.',
  'Fire-stopping is missing at the chase beside the bath.',
];

/** May be lived in for a while, with what is left. */
export async function temporaryOccupancy(): Promise<Uint8Array> {
  const book = await Book.open({
    title: 'Temporary certificate TCO-27-0014',
    day: '2027-02-24',
    faces: ['sans', 'sansBold'],
  });
  const flow = formHead(new Flow(book, styles.building), {
    office: `${county} Building Inspections`,
    title: 'Temporary Certificate of Occupancy',
    number: 'TCO-27-0014',
  });
  flow.fields([
    [2, 'Permit', 'BP-26-0412'],
    [3, 'Place', place.shouted],
    [2, 'Parcel', place.parcel],
  ]);
  flow.fields([
    [4, 'Owners', owners.both],
    [2, 'Inspected', 'February 24, 2027'],
  ]);
  flow.fields([
    [2, 'Issued', 'February 24, 2027'],
    [2, 'Good through', 'March 26, 2027'],
    [2, 'Items left', '3'],
  ]);
  flow.gap(8).para('The dwelling may be occupied until the day above, while the items on the punch list are finished.');
  flow.para(
    'It ends on its day. It is not given twice. Nobody may live in the house after it without a certificate of occupancy.',
    {
      bold: true,
    },
  );
  flow.para('Ask your insurer before you move in: the policy on a house being built may end that day.', { size: 8.5 });
  flow.signed('Wilma Askeland', 'Inspector', '2-24-27');
  return book.bytes();
}

export const punchItems = [
  'Driveway: final letter of the Road Department to be shown.',
  'Guard at the porch steps: pickets more than 4 in. apart on the left side.',
  'House number at the road: 2 in. figures, 4 in. wanted.',
] as const;

export async function punchList(): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Punch list BP-26-0412', day: '2027-02-24', faces: ['sans', 'sansBold'] });
  const flow = formHead(new Flow(book, styles.building), {
    office: `${county} Building Inspections`,
    title: 'Items to Complete',
    number: 'BP-26-0412',
  });
  flow.fields([
    [3, 'Place', place.shouted],
    [2, 'Walked', 'February 24, 2027'],
    [2, 'With', 'TCO-27-0014'],
  ]);
  flow
    .gap(8)
    .table([['No.', 'What is left', 'Seen', 'By'], ...punchItems.map((text, i) => [String(i + 1), text, '', ''])], {
      widths: [7, 69, 12, 12],
      size: 9.5,
    });
  flow.gap(4).para('All three before March 26, 2027. Numbers 2 and 3 may be shown by a photograph with its day.');
  flow.signed('Wilma Askeland', 'Inspector', '2-24-27');
  return book.bytes();
}

/** A till receipt, long and narrow, for a photograph. */
export async function tillReceipt(): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Receipt', day: '2026-08-03', faces: ['mono', 'monoBold'] });
  const leaf = book.leaf([200, 330]);
  leaf.text([100, 26], 'LOWER BRINDLE YARD', { face: 'monoBold', size: 12, align: 'centre' });
  leaf.text([100, 40], 'DEPOT STREET', { face: 'mono', size: 8, align: 'centre' });
  [
    '08/03/2026 07:52   TILL 2',
    '',
    '24 HURRICANE TIE    31.20',
    ' 2 ROLL WRAP 9X100 238.00',
    ' 6 FLASHING TAPE   137.70',
    '11 SEALANT TUBE     82.39',
    '',
    'SUM                489.29',
    'TAX                 34.25',
    'TO PAY             523.54',
    'CHECK 1164',
  ].forEach((line, i) => {
    leaf.text([14, 66 + i * 16], line, { face: line.startsWith('TO PAY') ? 'monoBold' : 'mono', size: 9.5 });
  });
  leaf.text([100, 300], 'KEEP THIS FOR RETURNS', { face: 'mono', size: 8, align: 'centre' });
  return book.bytes();
}

/** The plate on the heat pump. */
export async function namePlate(): Promise<Uint8Array> {
  const book = await Book.open({
    title: 'Name plate',
    day: '2027-01-19',
    faces: ['sans', 'sansBold', 'mono', 'monoBold'],
  });
  const leaf = book.leaf([243, 153]);
  leaf.box([0, 0], [243, 153], { fill: [0.84, 0.85, 0.86], width: 0 });
  leaf.box([6, 6], [231, 141], { width: 1 });
  leaf.text([16, 28], 'HEAT PUMP, OUTDOOR UNIT', { face: 'sansBold', size: 13 });
  [
    'MODEL   HW-36-V',
    'SERIAL  2611-004872',
    'MADE    11/2026',
    '208/230 V  1 PH  60 HZ',
    'REFRIGERANT 5 LB 9 OZ',
  ].forEach((line, i) => {
    leaf.text([16, 52 + i * 18], line, { face: i === 1 ? 'monoBold' : 'mono', size: 10.5 });
  });
  return book.bytes();
}

/** What the last money rests on, from the bank's own desk. */
export async function lastDrawLetter(): Promise<Uint8Array> {
  const book = await Book.open({
    title: 'Last draw CL-26-0093',
    day: '2027-02-22',
    faces: ['human', 'humanBold', 'slabBold'],
  });
  const flow = firmHead(new Flow(book, styles.lender), 'Saltgrass Savings Bank', [
    'Construction Lending',
    '4 Wharf Street, Lower Brindle',
  ]);
  flow.para('February 22, 2027').para(`${owners.both}\n77 Cooper Street, Lower Brindle`);
  flow.para('Last draw on loan CL-26-0093', { bold: true, size: 13 });
  flow.pairs([
    ['Paid out in six draws', '$306,000.00'],
    ['Held back', '$34,000.00'],
    ['Loan to be finished by', 'March 9, 2027'],
  ]);
  flow.heading('We pay what was held back when we have');
  for (const text of [
    'Certificate of occupancy (a temporary one is not enough)',
    "Homeowner's cover with the bank named, from the day the builder's risk ends or before",
    'Final unconditional waiver of every firm and every supplier who gave notice',
    'Our own last look at the house',
  ])
    flow.tick(text, false);
  flow.signed('Hesper Dunmore', 'Construction Loan Officer', '2-22-27');
  return book.bytes();
}
