import { airChanges, ductRate, type Firm, firms, house, owners, place } from '../cast.ts';
import { Book } from '../kit/book.ts';
import { Flow } from '../kit/flow.ts';
import { firmHead, styles } from '../kit/heads.ts';

const license = { state: 'State Board of Building Trades' } as const;

/** A licence sheet as the board prints it for the firm. */
export async function licence(firm: Firm, until: string): Promise<Uint8Array> {
  const book = await Book.open({
    title: `Licence ${firm.licence}`,
    day: '2025-12-15',
    faces: ['serif', 'serifBold', 'mono', 'monoBold'],
  });
  const flow = new Flow(book, { ...styles.county, ink: [0.2, 0.2, 0.24] });
  flow.leaf.box([40, 60], [532, 330], { width: 2 });
  flow.leaf.box([46, 66], [520, 318], { width: 0.5 });
  flow.y = 84;
  flow.para(license.state.toUpperCase(), { bold: true, size: 14, align: 'centre' });
  flow.para('certifies that', { align: 'centre' }).para(firm.name, { bold: true, size: 22, align: 'centre' });
  flow.para(`is licensed for the trade of ${firm.trade}`, { align: 'centre' }).gap(10);
  flow.pairs(
    [
      ['Licence', firm.licence],
      ['From', 'January 1, 2026'],
      ['Good through', until],
      ['Limit', 'dwellings of one and two families'],
    ],
    140,
  );
  flow.signed('Aurelio Bracegirdle', 'Registrar', '');
  flow.y = 420;
  flow.para(
    'Look the number up with the Board before you rely on a copy. (Board, State and firm are invented for this sample.)',
    { size: 9 },
  );
  return book.bytes();
}

/** The licence card that a framer carries, for a photograph. */
export async function licenceCard(): Promise<Uint8Array> {
  const book = await Book.open({
    title: 'Licence card',
    day: '2026-01-05',
    faces: ['sans', 'sansBold', 'mono', 'monoBold'],
  });
  const leaf = book.leaf([243, 153]);
  leaf.box([0, 0], [243, 153], { fill: [0.93, 0.94, 0.9], width: 0 });
  leaf.box([0, 0], [243, 26], { fill: [0.2, 0.34, 0.3], width: 0 });
  leaf.text([10, 17], license.state, { face: 'sansBold', size: 10, colour: [1, 1, 1] });
  leaf.text([12, 50], firms.framing.name, { face: 'sansBold', size: 15 });
  leaf.text([12, 66], 'FRAMING, DWELLINGS', { face: 'sans', size: 8 });
  leaf.text([12, 92], `LICENCE  ${firms.framing.licence}`, { face: 'monoBold', size: 12 });
  leaf.text([12, 110], 'GOOD THROUGH  12/31/2027', { face: 'mono', size: 9.5 });
  leaf.line([12, 138], [130, 138], { width: 0.5 });
  leaf.text([12, 146], 'bearer', { face: 'sans', size: 6 });
  leaf.box([176, 40], [52, 64], { width: 0.6, fill: [0.82, 0.84, 0.82] });
  leaf.text([202, 76], 'SAMPLE', { face: 'sansBold', size: 8, align: 'centre' });
  return book.bytes();
}

export interface Certificate {
  readonly firm: Firm;
  readonly sort: 'liability' | 'compensation';
  readonly number: string;
  readonly day: string;
  readonly issued: string;
  readonly from: string;
  readonly to: string;
}

/** A certificate that a firm is insured. It informs; it is no cover. */
export async function certificate(look: Certificate): Promise<Uint8Array> {
  const { firm, sort } = look;
  const book = await Book.open({
    title: `Certificate of ${sort} ${firm.name}`,
    day: look.day,
    faces: ['human', 'humanBold'],
  });
  const flow = firmHead(
    new Flow(book, styles.insurer),
    sort === 'liability' ? 'Larkmoor Mutual' : 'Stonecrop Workers Fund',
    ['Certificate desk', `Printed ${look.issued}`],
  );
  flow.para(sort === 'liability' ? 'Certificate of Liability Insurance' : "Certificate of Workers' Compensation", {
    bold: true,
    size: 14,
  });
  flow.fields(
    [
      [2, 'Insured firm', firm.name],
      [2, 'Shown to', owners.both],
    ],
    { height: 34 },
  );
  flow.fields([[1, 'Work', `${firm.trade}, ${place.house}`]], { height: 34 });
  const rows =
    sort === 'liability'
      ? [
          ['General liability', firm.policy, look.from, look.to, '$1,000,000 each event'],
          ['Vehicles', `${firm.policy}-A`, look.from, look.to, '$500,000 each event'],
        ]
      : [["Workers' compensation", look.number, look.from, look.to, 'as the State asks']];
  flow.gap(8).table([['Cover', 'Policy', 'From', 'Good through', 'Limit'], ...rows], { widths: [24, 20, 16, 16, 24] });
  flow.para(
    "This sheet tells what was in force on the day it was printed. It changes no policy and gives its holder no right. A policy may end sooner; ask the firm's insurer.",
  );
  flow.gap(10).para('Printed by the certificate desk; valid without a signature.', { size: 8.5 });
  return book.bytes();
}

const testerHead = (book: Book): Flow =>
  firmHead(new Flow(book, styles.tester), 'Pellow Home Energy', [
    'Crispin Pellow, energy tester HT-207',
    'The Old Kiln, Lower Brindle',
  ]);

export async function airLeakage(): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Air leakage AL-27-019', day: '2027-02-03', faces: ['human', 'humanBold'] });
  const flow = testerHead(book);
  flow.para('Building air leakage test AL-27-019', { bold: true, size: 14 });
  flow.pairs([
    ['Place', `${place.house}, Parcel ${place.parcel}`],
    ['Owners', owners.both],
    ['Tested', 'February 3, 2027, 9:30 to 10:50'],
    ['Pressure', '50 Pa, house under suction, outside 41 F, wind light'],
  ]);
  flow.table(
    [
      ['', 'Measured or reckoned'],
      ['Heated floor', `${house.heated.toLocaleString('en-US')} sq ft`],
      ['Ceiling height', '9.0 ft'],
      ['Volume', `${house.volume.toLocaleString('en-US')} cu ft`],
      ['Fan flow at 50 Pa', `${house.fanFlow} cfm`],
      [`Air changes per hour at 50 Pa (${house.fanFlow} x 60 / ${house.volume})`, airChanges.toFixed(2)],
      ['Most allowed here, as the energy report says', '3.00'],
    ],
    { widths: [64, 36], align: ['left', 'right'] },
  );
  flow.para(
    'Appliances off, fireplace none, bath fans closed by their own dampers. Whole-house ventilation is installed and set to 60 cfm.',
  );
  flow.signed('Crispin Pellow', 'energy tester HT-207', '2-3-27');
  return book.bytes();
}

export async function ductLeakage(): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Duct leakage DL-27-019', day: '2027-02-03', faces: ['human', 'humanBold'] });
  const flow = testerHead(book);
  flow.para('Duct leakage test DL-27-019', { bold: true, size: 14 });
  flow.pairs([
    ['Place', `${place.house}, Parcel ${place.parcel}`],
    ['Tested', 'February 3, 2027, after construction, air handler in place'],
  ]);
  flow.table(
    [
      ['', 'Measured or reckoned'],
      ['Heated floor served', `${house.heated.toLocaleString('en-US')} sq ft`],
      ['Total leakage at 25 Pa', `${house.ductFlow} cfm`],
      ['Per 100 sq ft', `${ductRate.toFixed(2)} cfm`],
      ['Most allowed here, as the energy report says', '4.00 cfm'],
    ],
    { widths: [64, 36], align: ['left', 'right'] },
  );
  flow.signed('Crispin Pellow', 'energy tester HT-207', '2-3-27');
  return book.bytes();
}

export async function energyCertificate(): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Energy certificate', day: '2027-02-09', faces: ['human', 'humanBold'] });
  const flow = testerHead(book);
  flow.para('Energy certificate, posted at the electrical panel', { bold: true, size: 14 });
  flow.pairs([
    ['Place', `${place.house}, Brindlemoor County`],
    ['Builder', `${owners.both} (owners)`],
    ['Posted', 'February 9, 2027'],
  ]);
  flow.table(
    [
      ['Part', 'Value'],
      ['Ceiling', 'R-49'],
      ['Walls', 'R-21'],
      ['Slab edge', 'R-10, 2 ft'],
      ['Ducts in attic', 'R-8'],
      ['Windows', 'U 0.29, SHGC 0.31'],
      ['Heat pump', 'heating 8.9, cooling 16.2'],
      ['Water heater', 'heat pump, 3.4'],
      ['Air leakage', `${airChanges.toFixed(2)} air changes per hour at 50 Pa`],
      ['Duct leakage', `${ductRate.toFixed(2)} cfm per 100 sq ft at 25 Pa`],
      ['Ventilation', 'exhaust, 60 cfm'],
    ],
    { widths: [50, 50], rule: 'lines' },
  );
  flow.signed('Crispin Pellow', 'energy tester HT-207', '2-9-27');
  return book.bytes();
}

/** Made from a revision of the plans: revision letter, its day, bedrooms, own date and version. */
export interface MadeFrom {
  readonly revision: 'A' | 'B' | 'C';
  readonly plansDay: string;
  readonly bedrooms: number;
  readonly day: string;
  readonly words: string;
  readonly version: string;
}

export async function energyReport(from: MadeFrom): Promise<Uint8Array> {
  const book = await Book.open({
    title: `Energy report ${from.version}`,
    day: from.day,
    faces: ['human', 'humanBold', 'humanItalic'],
  });
  const flow = testerHead(book);
  flow.para(`Energy report, version ${from.version}`, { bold: true, size: 15 });
  flow.pairs([
    ['Place', `${place.house}, Parcel ${place.parcel}`],
    ['Owners', owners.both],
    ['Made from', `Ostrey Drafting plans, revision ${from.revision} of ${from.plansDay}`],
    ['Bedrooms counted', String(from.bedrooms)],
    ['Dated', from.words],
  ]);
  flow.heading('Envelope');
  flow.table(
    [
      ['Part', 'Area', 'Value', 'Least or most', ''],
      ['Ceiling', '1,860 sq ft', 'R-49', 'R-49', 'meets'],
      ['Walls, net', '1,466 sq ft', 'R-21', 'R-20', 'meets'],
      ['Windows', '158 sq ft', 'U 0.29', 'U 0.32', 'meets'],
      ['Doors', '58 sq ft', 'U 0.20', 'U 0.32', 'meets'],
      ['Slab edge', '184 ft', 'R-10, 2 ft', 'R-10, 2 ft', 'meets'],
    ],
    { widths: [26, 20, 20, 22, 12] },
  );
  flow.heading('Loads');
  const people = from.bedrooms + 1;
  flow.table(
    [
      ['', 'Heating', 'Cooling'],
      ['Envelope', '21,900 Btu/h', '11,200 Btu/h'],
      ['Air leakage at 3.00', '5,600 Btu/h', '1,900 Btu/h'],
      [`People (${people})`, '', `${(people * 430).toLocaleString('en-US')} Btu/h`],
      ['Total', '27,500 Btu/h', `${(11_200 + 1900 + people * 430).toLocaleString('en-US')} Btu/h`],
    ],
    { widths: [46, 27, 27], align: ['left', 'right', 'right'] },
  );
  flow.newLeaf().heading('Ventilation');
  // Continuous rate 0.03 cfm per sq ft of floor + 7.5 cfm per (bedrooms + 1): a common rule, from memory.
  const rate = Math.round(0.03 * house.heated + 7.5 * people);
  flow.para(`Floor ${house.heated.toLocaleString('en-US')} sq ft, ${from.bedrooms} bedrooms: ${rate} cfm continuous.`);
  flow.heading('Tests asked for before occupancy');
  flow
    .tick('Air leakage not more than 3.00 air changes per hour at 50 Pa', true)
    .tick('Duct leakage not more than 4.00 cfm per 100 sq ft at 25 Pa', true)
    .tick('Certificate posted at the panel', true);
  flow.para('If rooms, windows or bedrooms change, this report must be made again.', { bold: true });
  flow.signed('Crispin Pellow', 'energy tester HT-207', from.words.replace(/, 20/, ' '));
  return flow.foot(`Pellow Home Energy, version ${from.version}, from plans revision ${from.revision}`).book.bytes();
}

export async function ownerIdCard(): Promise<Uint8Array> {
  const book = await Book.open({
    title: 'Identity card',
    day: '2026-01-05',
    faces: ['sans', 'sansBold', 'mono', 'monoBold'],
  });
  const leaf = book.leaf([243, 153]);
  leaf.box([0, 0], [243, 153], { fill: [0.9, 0.92, 0.95], width: 0 });
  leaf.text([12, 22], 'THE STATE   IDENTITY CARD (SAMPLE)', { face: 'sansBold', size: 9 });
  leaf.box([12, 34], [64, 82], { width: 0.6, fill: [0.78, 0.8, 0.84] });
  leaf.text([44, 78], 'SAMPLE', { face: 'sansBold', size: 9, align: 'centre' });
  [
    'LINDQVIST',
    'HANH NGUYEN',
    '77 COOPER STREET',
    'LOWER BRINDLE',
    'NO. X000-0000 (INVENTED)',
    'GOOD THROUGH 06/30/2029',
  ].forEach((line, i) => {
    leaf.text([88, 46 + i * 14], line, { face: 'mono', size: 9 });
  });
  return book.bytes();
}
