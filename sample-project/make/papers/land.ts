import { county, owners, place } from '../cast.ts';
import { Book } from '../kit/book.ts';
import { Flow } from '../kit/flow.ts';
import { countyHead, formHead, styles } from '../kit/heads.ts';
import { scan } from '../kit/picture.ts';

const recorderStamp = (flow: Flow, number: string, lines: readonly string[]): void => {
  flow.leaf.box([350, 40], [200, 74], { width: 0.8 });
  [`RECORDED No. ${number}`, ...lines].forEach((line, i) => {
    flow.leaf.text([450, 55 + i * 13], line, { face: i === 0 ? 'serifBold' : 'serif', size: 9.5, align: 'centre' });
  });
};

const metes = [
  'BEGINNING at a 5/8-inch iron rod with cap set in the east margin of Heron Lane (50 feet wide), being the southwest corner of Lot 7;',
  'thence along said margin N 03°15\'00" E, 452.00 feet to a 5/8-inch iron rod with cap set at the northwest corner of Lot 7;',
  'thence leaving said margin S 86°20\'00" E, 298.50 feet to a concrete monument found;',
  'thence along the line of Lot 8 to the southeast corner of Lot 7, and thence along the line of Lot 6 to the POINT OF BEGINNING, containing 3.10 acres, more or less, as shown on the plat of Heron Lane Division, Plat Book 14, Page 62.',
];

/** When the land was bought, as the deed tells it in its several places. */
interface Bought {
  readonly number: string;
  readonly day: string;
  readonly scanned: string;
  readonly file: string;
  readonly stamp: readonly [string, string, string];
  readonly made: string;
  readonly sworn: string;
  readonly pen: string;
}

const inMarch2024: Bought = {
  number: '2024-001873',
  day: '2024-03-11',
  scanned: '2024-03-20',
  file: 'scan0012',
  stamp: ['Mar 11, 2024   10:42 AM', 'Book 311   Page 204', 'Book 311   Page 205'],
  made: '8th day of March, 2024',
  sworn: 'March 8, 2024',
  pen: '3-8-24',
};

/** The same sale two years later, for the lot told in its first month. */
const inMarch2026: Bought = {
  number: '2026-000688',
  day: '2026-03-17',
  scanned: '2026-03-20',
  file: 'deed recorded 3-17',
  stamp: ['Mar 17, 2026   9:05 AM', 'Book 338   Page 96', 'Book 338   Page 97'],
  made: '16th day of March, 2026',
  sworn: 'March 16, 2026',
  pen: '3-16-26',
};

export const deed = (): Promise<Uint8Array> => deedOf(inMarch2024);
export const lateDeed = (): Promise<Uint8Array> => deedOf(inMarch2026);

async function deedOf(bought: Bought): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Deed', day: bought.day, faces: ['serif', 'serifBold', 'serifItalic'] });
  const flow = new Flow(book, styles.recorder);
  recorderStamp(flow, bought.number, [bought.stamp[0], bought.stamp[1], 'Brindlemoor County Recorder', '2 pages']);
  flow.y = 62;
  flow.para('After recording return to:\nHeronsgate Title Office\n12 Mill Row, Lower Brindle', { size: 9.5 });
  flow.gap(36).para('WARRANTY DEED', { bold: true, size: 16, align: 'centre' }).gap(8);
  flow.para(
    `THIS DEED, made this ${bought.made}, between OSWALD FENN THRALE, a single person, Grantor, and ${owners.both.toUpperCase()}, spouses, Grantees, whose mailing address is 77 Cooper Street, Lower Brindle.`,
  );
  flow.para(
    `The Grantor, for ten dollars and other good consideration paid, conveys and warrants to the Grantees, as tenants with right of survivorship, the following land in ${county}:`,
  );
  flow.para(`${place.lot}, Heron Lane Division, described in Exhibit A. Parcel ${place.parcel}.`, {
    bold: true,
    indent: 24,
  });
  flow.para(
    'SUBJECT TO easements, covenants and rights of way of record, and to a ten-foot utility easement along the margin of Heron Lane. Vacant land; no building stands on it.',
  );
  flow.para(
    'The Grantor covenants to be lawfully seized of the land, with good right to convey it, and to defend the title against lawful claims.',
  );
  flow.signed('Oswald Fenn Thrale', 'Grantor', bought.pen).gap(20);
  flow.para(`Sworn and signed before me on ${bought.sworn}, by Oswald Fenn Thrale, known to me.`, { size: 10 });
  flow.signed('Perpetua Voss', 'Notary, commission to 11-30-2026', bought.pen);
  const exhibit = new Flow(book, styles.recorder);
  recorderStamp(exhibit, bought.number, [bought.stamp[2], 'Page 2 of 2']);
  exhibit.gap(70).para('EXHIBIT A', { bold: true, size: 15, align: 'centre' });
  exhibit.para(`Description of ${place.lot}, Parcel ${place.parcel}`, { align: 'centre' }).gap(14);
  for (const line of metes) exhibit.para(line, { indent: 16 });
  exhibit.gap(12).para('Prepared from the survey of Orrick & Vane Land Surveying. Bearings are grid.', {
    size: 9.5,
    face: 'serifItalic',
  });
  return scan(await book.bytes(), { seed: 'deed', title: bought.file, day: bought.scanned, sideways: [1] });
}

export async function mortgage(): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Mortgage', day: '2026-03-10', faces: ['serif', 'serifBold', 'serifItalic'] });
  const flow = new Flow(book, styles.recorder);
  recorderStamp(flow, '2026-000611', [
    'Mar 10, 2026   2:15 PM',
    'Book 338   Page 17',
    'Brindlemoor County Recorder',
    '3 pages',
  ]);
  flow.y = 62;
  flow.para('Return to:\nSaltgrass Savings Bank\nConstruction Lending\n4 Wharf Street, Lower Brindle', { size: 9.5 });
  flow.gap(34).para('CONSTRUCTION MORTGAGE', { bold: true, size: 16, align: 'centre' }).gap(4);
  flow.para('This mortgage secures future advances for the building of one dwelling.', {
    align: 'centre',
    face: 'serifItalic',
  });
  flow.pairs([
    ['Date', 'March 9, 2026'],
    ['Borrowers', owners.both],
    ['Lender', 'Saltgrass Savings Bank'],
    ['Land', `${place.lot}; ${place.house}; Parcel ${place.parcel}`],
    ['Most principal', '$340,000.00'],
    ['Note due', 'March 9, 2027, then converting to a term of 360 months'],
  ]);
  for (const text of mortgageTerms) flow.para(text);
  flow.newLeaf();
  flow.y = 120;
  for (const text of moreTerms) flow.para(text);
  flow.newLeaf();
  flow.y = 120;
  flow.para('SIGNED by the Borrowers on the date written above.', { bold: true });
  flow.signed(owners.first, 'Borrower', '3-9-26').gap(14).signed(owners.second, 'Borrower', '3-9-26').gap(26);
  flow.para('Signed and acknowledged before me on March 9, 2026, by both Borrowers, who showed identification.', {
    size: 10.5,
  });
  flow.signed('Perpetua Voss', 'Notary, commission to 11-30-2026', '3-9-26');
  return scan(await book.bytes(), { seed: 'mortgage', title: 'Recorded mortgage', day: '2026-03-12', quality: 42 });
}

const mortgageTerms = [
  '1. Grant. The Borrowers mortgage the Land to the Lender, with all buildings now or later on it, to secure the Note and every advance made under the Construction Loan Agreement of the same date.',
  '2. Priority. The Borrowers state that on the date of recording no work had begun on the Land and no material had been delivered to it.',
  '3. Advances. The Lender advances money in draws against finished work, after its own inspection, and holds back ten percent of each draw until the certificate of occupancy is shown.',
];

const moreTerms = [
  '4. Insurance. The Borrowers keep the building insured against fire and other loss for its completed value without land, from the first delivery to the Land and without a day between policies, with the Lender named as mortgagee, and show the Lender proof before each draw.',
  '5. Permits. The Borrowers hold every permit the County asks for before the work that needs it, and send the Lender a copy of each.',
  '6. Liens. The Borrowers keep the Land free of claims of those who supply work or material and give releases with each request for a draw.',
  '7. Taxes. The Borrowers pay the taxes on the Land before they are late.',
  '8. Completion. The dwelling is to be finished, and its certificate of occupancy issued, by March 9, 2027, unless the Lender gives a longer time in writing.',
  '9. Default. If the Borrowers break a promise of this mortgage and do not mend it within thirty days after a written notice, the Lender may call the whole debt and use the remedies the law of the State gives it.',
  '10. Release. When the debt is paid the Lender records a release at its own cost.',
];

export async function taxReceipt(): Promise<Uint8Array> {
  const book = await Book.open({
    title: 'School tax receipt 2026-0188',
    day: '2026-01-08',
    faces: ['mono', 'monoBold'],
  });
  const flow = new Flow(book, { ...styles.roads, size: 9 }, [396, 612]);
  flow
    .para('BRINDLEMOOR COUNTY TREASURER', { bold: true, size: 12, align: 'centre' })
    .para('SCHOOL TAX RECEIPT', { bold: true, size: 11, align: 'centre' })
    .rule();
  flow.pairs(
    [
      ['RECEIPT', '2026-0188'],
      ['PAID', '01/08/2026'],
      ['TAX YEAR', '2026'],
      ['PARCEL', place.parcel],
      ['PROPERTY', `LOT 7, HERON LANE`],
      ['OWNER', owners.both.toUpperCase()],
      ['LAND VALUE', '$62,000'],
      ['BUILDINGS', '$0'],
      ['AMOUNT', '$418.62'],
      ['BY', 'CHECK 1090'],
    ],
    84,
  );
  flow.para('KEEP THIS STUB. THE PERMIT DESK ASKS TO SEE IT.').gap(6);
  flow.leaf.line([40, flow.y], [356, flow.y], { width: 0.6, dash: [4, 3] });
  flow.gap(6).para('STUB   041-22-0070   2026   PAID', { bold: true, align: 'centre' });
  flow.rubber([228, 430], ['PAID', 'JAN 8 2026'], { angle: 9, size: 13 });
  return book.bytes();
}

export async function addressLetter(): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Address assignment', day: '2025-06-03', faces: ['mono', 'monoBold'] });
  const flow = new Flow(book, { ...styles.roads, size: 10.5 });
  flow.para('BRINDLEMOOR COUNTY EMERGENCY ADDRESSING', { bold: true, size: 13 });
  flow.para('12 COURTHOUSE LANE, LOWER LEVEL, LOWER BRINDLE').rule().gap(12);
  flow.pairs(
    [
      ['DATE', '06/03/2025'],
      ['REQUEST', 'ADR-25-0163'],
      ['PARCEL', place.parcel],
      ['OLD LABEL', 'LOT 7, HERON LANE'],
      ['OWNER', owners.both.toUpperCase()],
    ],
    110,
  );
  flow.gap(10).para('THE ADDRESS ASSIGNED TO THE STRUCTURE ON THIS PARCEL IS:').gap(8);
  flow.para(place.shouted, { bold: true, size: 24, align: 'centre' }).gap(12);
  flow.para(
    'ACCESS POINT: DRIVEWAY AT STATION 4+18, EAST SIDE OF HERON LN. IF THE DRIVEWAY MOVES TO ANOTHER ROAD THE NUMBER MAY CHANGE. ASK BEFORE MOVING IT.',
  );
  flow.para(
    'POST THE NUMBER AT THE DRIVEWAY BEFORE CONSTRUCTION AND ON THE HOUSE BEFORE OCCUPANCY, FIGURES AT LEAST 4 INCHES HIGH, SEEN FROM BOTH DIRECTIONS.',
  );
  flow.para('POSTAL DELIVERY IS A MATTER FOR THE POST OFFICE AND IS NOT PROMISED BY THIS LETTER.');
  flow.gap(10).signed('D. Okonjo-Reyes', 'Addressing Clerk', '6-3-25');
  return book.bytes();
}

/** The letter before it is signed digitally; the signature panel is left clear. */
export async function floodLetter(): Promise<Uint8Array> {
  const book = await Book.open({
    title: 'Flood zone determination FD-26-031',
    day: '2026-02-11',
    faces: ['human', 'humanBold'],
  });
  const flow = countyHead(new Flow(book, styles.flood), 'Floodplain Administration', [
    '12 Courthouse Lane, Lower Brindle',
    'Wednesdays, by appointment',
  ]);
  flow
    .para('February 11, 2026')
    .para(`Determination FD-26-031: ${place.house}, Parcel ${place.parcel}`, { bold: true, size: 12 });
  flow.para(`Asked for by ${owners.both}.`);
  flow.pairs([
    ['Community', 'Brindlemoor County, unincorporated'],
    ['Map panel', '0210 D (invented for this sample), effective 2019-09-04'],
    ['Zone at the building site', 'X (outside the mapped special flood hazard area)'],
    ['Nearest mapped area', 'Zone A along Teasel Brook, about 610 ft east of the building site'],
    ['Base flood elevation', 'none determined here'],
    ['Datum of the map', 'NAVD 88'],
  ]);
  flow.para(
    'On the map in force today the building site shown on the survey of Orrick & Vane lies in Zone X. This determination is for the site shown; if the house moves more than 25 feet, or the map is replaced, ask again.',
  );
  flow.para(
    'A lender may still ask for its own determination. Being outside the mapped area does not mean that water cannot come.',
  );
  flow.gap(6).para('Signed digitally. Check the signature in the file itself; a print of this letter carries none.', {
    size: 9,
  });
  flow.leaf.box([flow.left, 640], [240, 62], { width: 0.6, dash: [3, 2] });
  flow.leaf.text([flow.left + 8, 655], 'Digital signature:', { face: 'human', size: 8 });
  flow.leaf.text([flow.left, 714], 'Marguerite Ilves, Floodplain Administrator', { face: 'human', size: 10 });
  return book.bytes({ packed: false });
}

export async function commencement(): Promise<Uint8Array> {
  const book = await Book.open({
    title: 'Notice of commencement',
    day: '2026-05-11',
    faces: ['sans', 'sansBold', 'serif', 'serifBold'],
  });
  const flow = formHead(new Flow(book, styles.building), {
    office: `${county} Recorder (copy of the recorded form)`,
    title: 'Notice of Commencement',
    number: '2026-001402',
  });
  flow.fields([
    [2, 'Permit', 'BP-26-0412'],
    [2, 'Parcel', place.parcel],
    [3, 'Recorded', 'May 11, 2026, 9:08 AM'],
  ]);
  flow.fields([
    [3, 'Place', `${place.house} (${place.lot})`],
    [2, 'Work', 'New single-family dwelling'],
  ]);
  flow.fields([[1, 'Owners', owners.both]]);
  flow.fields([
    [1, 'Contractor', 'Owner-builder'],
    [1, 'Surety', 'none'],
  ]);
  flow.fields([
    [1, 'Lender', 'Saltgrass Savings Bank, 4 Wharf Street, Lower Brindle'],
    [1, 'Notices also to', 'none'],
  ]);
  flow.fields([[1, 'Ends', 'one year after recording']]);
  flow
    .gap(18)
    .para(
      'The wording of this notice is fixed by the State. This copy belongs to an invented sample and is not a form to use.',
      { size: 8.5 },
    );
  flow.signed(owners.first, 'owner', '5-11-26').gap(8).signed(owners.second, 'owner', '5-11-26');
  flow.rubber([390, 420], ['RECORDED', '2026-001402', 'MAY 11 2026'], { angle: 5 });
  return book.bytes();
}
