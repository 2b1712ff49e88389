import { county, owners, place } from '../cast.ts';
import { Book } from '../kit/book.ts';
import { Flow } from '../kit/flow.ts';
import { countyHead, firmHead, formHead, styles } from '../kit/heads.ts';

export async function drivewayPermit(): Promise<Uint8Array> {
  const book = await Book.open({
    title: 'Driveway permit DW-26-058',
    day: '2026-04-15',
    faces: ['mono', 'monoBold', 'serif', 'serifBold'],
  });
  const flow = new Flow(book, styles.roads);
  flow.para('BRINDLEMOOR COUNTY ROAD DEPARTMENT', { bold: true, size: 14 });
  flow.para('3 GRAVEL YARD ROAD, LOWER BRINDLE').rule(1.2).gap(6);
  flow.para('DRIVEWAY PERMIT  DW-26-058', { bold: true, size: 15 });
  flow.pairs([
    ['ISSUED', '04/15/2026'],
    ['GOOD THROUGH', '04/15/2027 (FINISHED BY THEN)'],
    ['OWNERS', owners.both.toUpperCase()],
    ['PLACE', `${place.shouted}   PARCEL ${place.parcel}`],
    ['ROAD', 'HERON LN, COUNTY ROAD 118, STATION 4+18 EAST'],
    ['WIDTH', '14 FT AT THE LOT LINE, 24 FT AT THE ROAD EDGE'],
    ['PIPE', '15 IN. CORRUGATED, 24 FT LONG, 12 IN. COVER'],
    ['SEEN AHEAD', '390 FT NORTH, 455 FT SOUTH (280 FT ASKED)'],
    ['FEE', '$75.00 PAID, CHECK 1109'],
  ]);
  flow.para('CONDITIONS', { bold: true });
  for (const text of [
    '1. CALL FOR UTILITY LOCATES BEFORE DIGGING IN THE ROAD MARGIN.',
    '2. NO WATER OR MUD ON THE ROAD. STONE THE FIRST 50 FT BEFORE TRUCKS USE IT.',
    '3. CALL FOR INSPECTION WHEN THE PIPE IS SET AND BEFORE IT IS COVERED.',
    '4. ANOTHER PLACE ON THE ROAD NEEDS ANOTHER PERMIT AND MAY CHANGE THE ADDRESS.',
    '5. A FINAL LETTER FROM THIS DEPARTMENT IS NEEDED BEFORE OCCUPANCY.',
  ])
    flow.para(text, { indent: 8 });
  flow.signed('E. Tarrant', 'Road Superintendent', '4-15-26');
  flow.rubber([390, 636], ['PERMIT ISSUED', 'APR 15 2026'], { angle: 7 });
  return book.bytes();
}

export async function drivewayFinal(): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Driveway final DW-26-058', day: '2027-03-02', faces: ['mono', 'monoBold'] });
  const flow = new Flow(book, { ...styles.roads, size: 10.5 });
  flow
    .para('BRINDLEMOOR COUNTY ROAD DEPARTMENT', { bold: true, size: 14 })
    .para('3 GRAVEL YARD ROAD, LOWER BRINDLE')
    .rule(1.2)
    .gap(10);
  flow.para('03/02/2027');
  flow.para(`TO: BUILDING INSPECTIONS, COPY TO ${owners.both.toUpperCase()}`);
  flow.para(`RE: DRIVEWAY PERMIT DW-26-058, ${place.shouted}, PARCEL ${place.parcel}`, { bold: true });
  flow.para(
    'THE DRIVEWAY WAS LOOKED AT ON 03/01/2027. PIPE, WIDTH, STONE AND DITCH ARE AS PERMITTED. THE HOUSE NUMBER IS POSTED AT THE ROAD.',
  );
  flow
    .para('THIS DEPARTMENT HAS NO OBJECTION TO A CERTIFICATE OF OCCUPANCY.')
    .signed('E. Tarrant', 'Road Superintendent', '3-2-27');
  return book.bytes();
}

export async function serviceLetter(): Promise<Uint8Array> {
  const book = await Book.open({
    title: 'Electric service request 55-20193',
    day: '2026-02-24',
    faces: ['human', 'humanBold'],
  });
  const flow = firmHead(new Flow(book, styles.power), 'Fennick Valley Power', [
    'Member Services',
    '200 Substation Road, Lower Brindle',
    'Outages: at any hour, number on your bill',
  ]);
  flow.para('February 24, 2026').para(`${owners.both}\n77 Cooper Street, Lower Brindle`);
  flow.para(`Service request 55-20193: ${place.house}`, { bold: true, size: 12 });
  flow.pairs([
    ['Parcel', place.parcel],
    ['Service', '200 A, single phase, 120/240 V, underground from pole HL-41'],
    ['Length of trench', '212 ft, dug by the member, 36 in. deep, inspected open'],
    ['Cost to member', '$1,460.00, due before the crew is scheduled'],
    ['Held through', 'February 24, 2027'],
  ]);
  flow.para(
    'We will set a temporary service when the county electrical inspector has passed the temporary panel and sent us the number. The permanent meter follows the final electrical inspection. We energise; nobody else does.',
  );
  flow
    .para('Call for utility locates before any digging, and again if the marks are gone.')
    .para('Thank you,')
    .signed('Lettice Farrow', 'Line Extension Planner', '2-24-26');
  return book.bytes();
}

export async function temporaryPower(): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Temporary power release', day: '2026-05-27', faces: ['sans', 'sansBold'] });
  const flow = formHead(new Flow(book, styles.building), {
    office: `${county} Building Inspections`,
    title: 'Release for Temporary Electric Service',
    number: 'TP-26-0207',
  });
  flow.fields([
    [2, 'Permit', 'BP-26-0412'],
    [3, 'Place', place.shouted],
    [2, 'Parcel', place.parcel],
  ]);
  flow.fields([
    [2, 'Inspected', 'May 27, 2026'],
    [3, 'Installer', 'Wrenhollow Electric, EL-4471'],
    [2, 'Result', 'PASSED'],
  ]);
  flow.fields([
    [2, 'Service', '100 A temporary panel on post'],
    [2, 'Good through', 'May 27, 2027'],
    [2, 'Sent to', 'Fennick Valley 55-20193'],
  ]);
  flow.gap(10);
  for (const text of [
    'Post braced, conductors protected, panel closed',
    'Ground-fault protection on all receptacles',
    'Grounding electrode in place',
  ])
    flow.tick(text, true);
  flow
    .para('For construction use only. The cooperative energises the service.')
    .signed('Ned Quillan', 'Electrical Inspector', '5-27-26');
  return book.bytes();
}

/** One call to the locate centre: what it prints, and who answered. */
interface Located {
  readonly ticket: string;
  readonly day: string;
  readonly called: string;
  readonly start: string;
  readonly through: string;
  readonly where: string;
  readonly work: string;
  readonly area: string;
  readonly answers: readonly (readonly [string, string, string])[];
}

const forBuilding: Located = {
  ticket: '2605-120447',
  day: '2026-05-12',
  called: 'Tue 2026-05-12 08:31',
  start: 'Fri 2026-05-15 08:31',
  through: '2026-05-30',
  where: `${place.house}, Brindlemoor County`,
  work: 'driveway pipe, septic, service trench, footings',
  area: 'road margin 30 ft each side of station 4+18; whole lot marked in white',
  answers: [
    ['Fennick Valley Power', 'marked, red', '05-13 14:05'],
    ['Brindle Telephone', 'clear, no lines', '05-13 09:40'],
    ['County water', 'not in this area', '05-12 16:22'],
  ],
};

const forPits: Located = {
  ticket: '2604-060218',
  day: '2026-04-06',
  called: 'Mon 2026-04-06 09:12',
  start: 'Thu 2026-04-09 09:12',
  through: '2026-04-24',
  where: `${place.lot}, Brindlemoor County`,
  work: 'four soil pits, 6 ft deep, by machine',
  area: 'four places flagged in white, 60 to 180 ft from the road',
  answers: [
    ['Fennick Valley Power', 'clear, poles along the road only', '04-07 13:20'],
    ['Brindle Telephone', 'clear, no lines', '04-07 10:02'],
    ['County water', 'not in this area', '04-06 15:48'],
  ],
};

export const locateTicket = (): Promise<Uint8Array> => ticketOf(forBuilding);
export const pitsTicket = (): Promise<Uint8Array> => ticketOf(forPits);

async function ticketOf(located: Located): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Locate ticket', day: located.day, faces: ['code', 'human', 'humanBold'] });
  const flow = new Flow(book, { ...styles.power, body: 'code', bold: 'code', size: 9 });
  flow.para('LOCATE REQUEST CONFIRMATION', { size: 14 }).rule();
  flow.pairs(
    [
      ['Ticket', located.ticket],
      ['Called in', located.called],
      ['Dig may start', located.start],
      ['Marks good through', located.through],
      ['Caller', owners.both],
      ['Place', located.where],
      ['Work', located.work],
      ['Area', located.area],
    ],
    130,
  );
  flow.table([['Utility', 'Answer', 'When'], ...located.answers], { widths: [38, 38, 24] });
  flow.para(
    'Dig by hand within 24 inches of a mark. Marks fade: ask again before the ticket lapses or when the marks are gone.',
  );
  return book.bytes();
}

export async function occupancyCertificate(): Promise<Uint8Array> {
  const book = await Book.open({
    title: 'Certificate of occupancy CO-27-0061',
    day: '2027-03-05',
    faces: ['serif', 'serifBold', 'serifItalic'],
  });
  const flow = countyHead(new Flow(book, styles.county), 'Building Department', [
    '12 Courthouse Lane, Lower Brindle',
    'Monday to Thursday 8 to 16',
  ]);
  flow
    .gap(20)
    .para('CERTIFICATE OF OCCUPANCY', { bold: true, size: 20, align: 'centre' })
    .para('CO-27-0061', { align: 'centre', size: 13 })
    .gap(14);
  flow.pairs(
    [
      ['Permit', 'BP-26-0412'],
      ['Place', `${place.house} (${place.lot}), Parcel ${place.parcel}`],
      ['Owners', owners.both],
      ['Use', 'Single-family dwelling, 3 bedrooms, 1,860 sq ft heated'],
      ['Final inspection', 'March 4, 2027'],
      ['Issued', 'March 5, 2027'],
      ['Conditions', 'none'],
    ],
    120,
  );
  flow.para(
    'The dwelling was inspected and found to meet the rules in force when the permit was issued, as far as they could be seen. It may be lived in.',
  );
  flow.gap(20).signed('Ludo Vantreight', 'Building Official', '3-5-27');
  return book.bytes();
}
